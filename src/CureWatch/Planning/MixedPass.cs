namespace CureWatch.Planning;

/// <summary>How many of several sections that differ can be coated before they are levelled in the same order.</summary>
/// <remarks>
/// A cold door flashes later than a warm bonnet: each section has a window of its own, and the pass ends before the first that would be levelled too
/// late. Source (law): a step-by-step simulation. With one person every further section delays the levelling of all before it, so that the first pass
/// that does not fit tells that no longer one does; with two, a section's wait does not depend on those behind it.
/// </remarks>
public static class MixedPass
{
    /// <summary>Finds how many sections from the first on make a pass.</summary>
    /// <param name="pace">How fast a section is worked, and by how many.</param>
    /// <param name="windows">When each section may be levelled, in the order they are coated.</param>
    /// <returns>From 0, where not even the first can be kept inside its window, to all of them.</returns>
    public static int Sections(SectionPace pace, IReadOnlyList<FlashWindow> windows)
    {
        for (int sections = 1; sections <= windows.Count; sections++)
        {
            if (!Fits(pace, windows, sections))
            {
                return sections - 1;
            }
        }

        return windows.Count;
    }

    private static bool Fits(SectionPace pace, IReadOnlyList<FlashWindow> windows, int sections)
    {
        TimeSpan free = pace.People > 1 ? TimeSpan.Zero : (sections * pace.Apply) + pace.ChangeOver;
        for (int i = 0; i < sections; i++)
        {
            TimeSpan applied = (i + 1) * pace.Apply, flashed = applied + windows[i].From;
            TimeSpan begun = free > flashed ? free : flashed;
            if (begun - applied > windows[i].LastStart(pace.Level))
            {
                return false;
            }

            free = begun + pace.Level;
        }

        return true;
    }
}
