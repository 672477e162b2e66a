using System.Collections.Immutable;
using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>A lamp over a surface: a spell from being switched on to being switched off, without an end while nobody told.</summary>
public static class LampSpell
{
    /// <summary>A surface that has lost this much of its highest temperature has no lamp over it any more [K]. Source (choice): more than a
    /// lamp that is put right costs, and reached by steel two minutes after the lamp is off.</summary>
    public const double FallK = 10;

    /// <summary>How long a lamp nobody switched off burns once nothing shows that it does [4 h]. Source (choice): longer than any sheet's stays,
    /// one after the other; heat that is not credited costs time, heat that is costs a coat.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(4);

    /// <summary>How long one over a surface that heat can spoil may burn unread before people are told [2 min]. Source (choice): bright lamps bring sheet
    /// metal from 20 to 60 °C in one to seven minutes, by C·dT/dt = q − h(T − T_air): 0.8 mm of steel holds 2952 J/m²K, takes up 2000 to 600 W/m², loses 12 W/m²K.</summary>
    public static readonly TimeSpan LongestUnread = TimeSpan.FromMinutes(2);

    /// <summary>A lamp that is told on again within this time is the same one, told twice [30 min]; later, the one before was switched off and nobody told.
    /// Source (choice): longer than lamps stay on one surface at a time, 10 to 20 min by common practice.</summary>
    public static readonly TimeSpan Doubled = TimeSpan.FromMinutes(30);

    /// <summary>Reads the taps of a surface as lamps over one of its sections.</summary>
    /// <param name="own">The standing taps that concern the surface, in order.</param>
    /// <param name="section">The section, from 1; a tap that names none is about each.</param>
    /// <returns>
    /// The spells in order, none overlapping. A lamp stays where it is when the car moves, and one that is told over another section has left this one:
    /// heat that is not credited costs time.
    /// </returns>
    public static ImmutableArray<Spell> Over(IEnumerable<Tap> own, int section)
    {
        var spells = new List<Spell>();
        foreach (Tap tap in own)
        {
            bool isOn = spells is [.., { To: null }], isHere = tap.Section is null || tap.Section == section;
            bool isAnew = tap.Did == Did.LampOn && isHere && (!isOn || tap.At - spells[^1].From > Doubled);
            bool isOff = tap.Did switch
            {
                Did.LampOn => isAnew || !isHere,
                Did.LampOff => isHere,
                _ => tap.Did == Did.Moved,
            };
            if (isOn && isOff)
            {
                spells[^1] = spells[^1] with { To = tap.At };
            }

            if (isAnew)
            {
                spells.Add(new Spell(tap.At, null));
            }
        }

        return [.. spells];
    }

    /// <summary>Reads them as lamps over each section.</summary>
    /// <param name="own">The standing taps that concern the surface, in order; those that name a section it has not are about other surfaces.</param>
    /// <param name="sections">How many it has.</param>
    /// <returns>The spells over each; nothing where there never was one.</returns>
    public static ImmutableArray<ImmutableArray<Spell>> BySection(IEnumerable<Tap> own, int sections)
    {
        Tap[] here = [.. own.Where(t => !(t.Section > sections))];
        return here.Any(t => t.Did == Did.LampOn) ? [.. Enumerable.Range(1, sections).Select(s => Over(here, s))] : [];
    }

    /// <summary>The lamps over a surface: those over any of its sections.</summary>
    /// <param name="sections">The lamps over each section.</param>
    /// <returns>The spells in order, none overlapping.</returns>
    public static ImmutableArray<Spell> Together(IEnumerable<ImmutableArray<Spell>> sections)
    {
        var spells = new List<Spell>();
        foreach (Spell next in sections.SelectMany(s => s).Distinct().OrderBy(s => s.From))
        {
            if (spells is [.., var last] && !(next.From >= last.To))
            {
                spells[^1] = last with { To = last.To is { } one && next.To is { } other ? (one > other ? one : other) : null };
            }
            else
            {
                spells.Add(next);
            }
        }

        return [.. spells];
    }

    /// <summary>The spell with an end: that which was told, else that which the surface's own readings show.</summary>
    /// <param name="lamp">The lamp.</param>
    /// <param name="own">The surface's own readings, in order.</param>
    /// <returns>The spell; its end may lie in the future while the lamp burns.</returns>
    public static Spell Ended(this Spell lamp, IReadOnlyList<OwnReading> own)
    {
        if (lamp.To is not null)
        {
            return lamp;
        }

        DateTimeOffset seenAt = lamp.From;
        double? before = null;
        double highest = double.NegativeInfinity;
        foreach (OwnReading reading in own)
        {
            if (reading.At < lamp.From)
            {
                before = reading.PanelC;
                continue;
            }

            if (reading.At - seenAt > Longest)
            {
                break;
            }

            before ??= reading.PanelC;
            highest = Math.Max(highest, reading.PanelC);
            if (highest - reading.PanelC >= FallK)
            {
                return lamp with { To = reading.At };
            }

            seenAt = reading.PanelC - before >= FallK ? reading.At : seenAt;
        }

        return lamp with { To = seenAt + Longest };
    }
}
