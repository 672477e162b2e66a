using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Finds out which surface a panel probe tells of while a lamp burns: it must warm no other one's panel.</summary>
/// <remarks>
/// A probe belongs to the heated surface that it names, else to the one whose name it bears, else it is the one of that material that shows the
/// heat. It does until it has cooled back to what it said before, and for eight time constants of the surface at most.
/// </remarks>
internal static class LampHeat
{
    /// <summary>What shows a lamp's heat [K above the reading before it]. Source (choice): more than a bay warms in an hour.</summary>
    public const double ShownK = 5;

    /// <summary>After this many time constants less than a two-thousandth of the heat is left. Source (law): e⁻⁸.</summary>
    public const double LongestCooling = 8;

    /// <summary>When a probe says nothing of a point.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The probe, by where it stands in the plan.</param>
    /// <param name="own">The surface that the point watches alone; null where it watches all of a kind.</param>
    /// <returns>The times, most often none.</returns>
    public static ImmutableArray<Spell> LentTo(BayState bay, int index, SurfaceKey? own) =>
        bay.Heats.IsEmpty ? [] : [.. Lent(bay, index).Where(l => (l.Owner == index) != (l.Key == own)).Select(l => l.Spell)];

    /// <summary>When a probe may say something of a surface under a lamp, though it may as well tell of another one that is.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The probe, by where it stands in the plan.</param>
    /// <param name="key">The surface.</param>
    /// <returns>The times, most often none.</returns>
    /// <remarks>Where one probe shows the heat of lamps over several surfaces nobody knows whose it is: it earns none of them anything, and may spoil any.</remarks>
    public static ImmutableArray<Spell> MaySayOf(BayState bay, int index, SurfaceKey key) =>
        bay.Heats.ContainsKey(key) ? [.. Lent(bay, index).Where(l => l.Key == key && l.Owner == index).Select(l => l.Spell)] : [];

    private static IEnumerable<(SurfaceKey Key, int Owner, Spell Spell)> Lent(BayState bay, int index) =>
        from heat in bay.Heats
        where IsNear(bay, index, heat.Value)
        from lamp in heat.Value.Lamps
        let owner = OwnerOf(bay, heat.Key, heat.Value, lamp)
        where owner is not null
        select (heat.Key, owner.Value, lamp with { To = CooledAt(bay.Logs[owner.Value].Panel, heat.Value, lamp) });

    /// <summary>The probe that tells of a surface under a lamp.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="key">The surface.</param>
    /// <param name="heat">What was told of it.</param>
    /// <param name="lamp">The lamp.</param>
    /// <returns>Where the probe stands in the plan; null where none does.</returns>
    public static int? OwnerOf(BayState bay, SurfaceKey key, SurfaceHeat heat, Spell lamp)
    {
        int? owner = null;
        double most = ShownK;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            ProbeMount mount = bay.Plan.Probes[i];
            if (mount.Probe.Measures != Measures.Panel || !IsNear(bay, i, heat))
            {
                continue;
            }

            if (mount.IsOn(key.Surface))
            {
                return i;
            }

            if (mount.Surface is null && mount.Material == heat.Material && ShownBy(bay.Logs[i].Panel, lamp) is var shown && shown >= most)
            {
                (owner, most) = (i, shown);
            }
        }

        return owner;
    }

    /// <summary>Whether a probe that is on no surface by name may turn out to be on one that was just put under a lamp.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="heat">What was told of the surface.</param>
    /// <param name="now">The present.</param>
    /// <returns>False where none on its material is heard, or none speaks often enough.</returns>
    public static bool MayBeShown(BayState bay, SurfaceHeat heat, DateTimeOffset now) => Enumerable.Range(0, bay.Logs.Length).Any(
        i => bay.Plan.Probes[i] is { Surface: null, Probe.Measures: Measures.Panel } mount && mount.Material == heat.Material && IsNear(bay, i, heat)
            && mount.Probe.Every <= OwnReading.ReachOfSpot && now < bay.Logs[i].QuietAt);

    private static bool IsNear(BayState bay, int index, SurfaceHeat heat) => PlaceAir.Of(bay.Plan.Probes[index].Place) == PlaceAir.Of(heat.Place);

    /// <summary>How far a probe rose above what it said before the lamp [K].</summary>
    private static double ShownBy(Trail<Sample> samples, Spell lamp)
    {
        int before = samples.CountWhile((in s) => s.At <= lamp.From);
        double most = 0;
        for (int i = before; before > 0 && i < samples.Count && !(samples[i].At > lamp.To); i++)
        {
            most = Math.Max(most, samples[i].Kelvins - samples[before - 1].Kelvins);
        }

        return most;
    }

    /// <summary>When it had cooled back, or will have at the latest. A lamp nobody switched off burns as long as the probe shows it, and then some.</summary>
    private static DateTimeOffset CooledAt(Trail<Sample> samples, SurfaceHeat heat, Spell lamp)
    {
        int before = samples.CountWhile((in s) => s.At <= lamp.From);
        bool isShown = false;
        DateTimeOffset latest = (lamp.To ?? LastShownAt(samples, before, lamp) + LampSpell.Longest) + (heat.TimeConstant * LongestCooling);
        for (int i = before; before > 0 && i < samples.Count && !(samples[i].At > latest); i++)
        {
            double above = samples[i].Kelvins - samples[before - 1].Kelvins;
            isShown |= above >= ShownK;
            if (above <= 0 && (lamp.To is { } off ? samples[i].At >= off : isShown))
            {
                return samples[i].At;
            }
        }

        return latest;
    }

    private static DateTimeOffset LastShownAt(Trail<Sample> samples, int before, Spell lamp)
    {
        DateTimeOffset shown = lamp.From;
        for (int i = before; before > 0 && i < samples.Count && samples[i].At - shown <= LampSpell.Longest; i++)
        {
            shown = samples[i].Kelvins - samples[before - 1].Kelvins >= ShownK ? samples[i].At : shown;
        }

        return shown;
    }
}
