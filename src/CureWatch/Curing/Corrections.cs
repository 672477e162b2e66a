namespace CureWatch.Curing;

/// <summary>Which of the taps of a job hold: not those another took the place of, and not those that were taken back.</summary>
/// <remarks>
/// A correction that was taken back corrects nothing, so what it had replaced holds again; a taking back that was itself taken back is none. What was
/// corrected stays so when its correction is corrected once more. Of two corrections of one tap the one that was told last holds.
/// </remarks>
internal sealed class Corrections
{
    private readonly HashSet<string> _replaced = [];
    private readonly HashSet<string> _takenBack = [];

    private Corrections(IReadOnlyList<Tap> told)
    {
        Dictionary<string, string> corrects = [];
        foreach (Tap tap in told.Where(t => t is { Id: not null, Corrects: not null, Did: not Did.Withdrawn }))
        {
            corrects.TryAdd(tap.Id!, tap.Corrects!);
        }

        var corrected = new HashSet<string>();
        for (int i = told.Count - 1; i >= 0; i--)
        {
            if (told[i].Corrects is not { } before || IsTakenBack(told[i]))
            {
                continue;
            }

            _ = (told[i].Did == Did.Withdrawn ? _takenBack : _replaced).Add(before);
            if (told[i].Did != Did.Withdrawn && !corrected.Add(FirstOf(before)) && told[i].Id is { } id)
            {
                _replaced.Add(id); // two people corrected the same: whoever spoke last is heard
            }
        }

        // What was told first of all that took each other's place.
        string FirstOf(string id)
        {
            var passed = new HashSet<string>();
            while (passed.Add(id) && corrects.TryGetValue(id, out string? earlier))
            {
                id = earlier;
            }

            return id;
        }
    }

    /// <summary>Reads the taps of a job.</summary>
    /// <param name="told">All of them, in the order they were told.</param>
    /// <returns>What they say of each other.</returns>
    public static Corrections Of(IReadOnlyList<Tap> told) => new(told);

    /// <summary>Whether a tap counts; one that only takes another back never does.</summary>
    /// <param name="tap">The tap.</param>
    /// <returns>True where it does.</returns>
    public bool Holds(Tap tap) => tap.Did != Did.Withdrawn && (tap.Id is null || !(_replaced.Contains(tap.Id) || _takenBack.Contains(tap.Id)));

    /// <summary>Whether a later tap takes it back.</summary>
    /// <param name="tap">The tap.</param>
    /// <returns>True where one does.</returns>
    public bool IsTakenBack(Tap tap) => tap.Id is not null && _takenBack.Contains(tap.Id);
}
