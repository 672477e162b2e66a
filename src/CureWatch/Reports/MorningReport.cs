using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>What to know of a bay in the morning: what happened since lock-up, and what to look at first.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="At">When it is told.</param>
/// <param name="From">The last lock-up; null where the shop never closes, or has not since it began to watch.</param>
/// <param name="Happened">The warnings given since, those over again too, in the order they were given.</param>
/// <param name="Water">When water condensed since.</param>
/// <param name="Unheard">When no probe of its air was heard, in order.</param>
/// <param name="Coldest">The coldest panel since, or air where no panel is measured; null where nobody measured.</param>
/// <param name="LookFirst">Every hold of the cars in it, what spoils most first.</param>
/// <param name="Doors">What opening a door would do, where air from outdoors would wet something; else null.</param>
public sealed record MorningReport(
    string Bay,
    DateTimeOffset At,
    DateTimeOffset? From,
    ImmutableArray<Warning> Happened,
    ImmutableArray<Spell> Water,
    ImmutableArray<Spell> Unheard,
    (Celsius Temperature, DateTimeOffset At)? Coldest,
    ImmutableArray<MorningHold> LookFirst,
    Sentence? Doors)
{
    private static readonly ImmutableArray<HoldKind> WorstFirst =
    [
        HoldKind.Condensation, HoldKind.Wetted, HoldKind.Heat, HoldKind.LevelMissed, HoldKind.NotLevelled, HoldKind.OutOfWindow, HoldKind.Inspection,
        HoldKind.Unwatched, HoldKind.ReportedLate, HoldKind.KeepDry, HoldKind.NotApplied,
    ];

    /// <summary>What to know, in a sentence or two.</summary>
    public required Sentence Text { get; init; }

    /// <summary>What to know of every bay of a shop, in the plan's order.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>The reports.</returns>
    public static ImmutableArray<MorningReport> Of(Shop shop)
    {
        var night = new LastNight(shop);
        return [.. shop.Plan.Bays.Select(b => Of(shop, b.Bay, night))];
    }

    /// <summary>What to know of one bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The bay's id; the bay must be there.</param>
    /// <returns>The report at the shop's present.</returns>
    public static MorningReport Of(Shop shop, string id) => Of(shop, id, new LastNight(shop));

    private static MorningReport Of(Shop shop, string id, LastNight night)
    {
        BayState bay = shop.Bays[id];
        DateTimeOffset? from = night.From;
        ImmutableArray<Spell> water = [.. bay.WetSpellsIn(Place.Outside).Where(s => from is not null && !(s.To < from))];
        ImmutableArray<MorningHold> holds =
        [
            .. from job in night.CarsIn(id)
               from hold in JobReport.RulingOn(shop, job).Holds
               orderby WorstFirst.IndexOf(hold.Kind)
               select new MorningHold(job.Job.Id, job.Job.Car, hold),
        ];
        ImmutableArray<Spell> unheard = from is { } since ? AirSilence.In(bay, since, shop.Now) : [];
        var report = new MorningReport(
            id, shop.Now, from, night.HappenedIn(id), water, unheard, ColdestSince(bay, from), holds, TonightReport.DoorsOf(shop, id)) { Text = Sentence.None };
        return report with { Text = report.Told(shop) };
    }

    private Sentence Told(Shop shop)
    {
        Sentence night = From is null ? (Sentence)$"No night to tell of yet."
            : Water.IsEmpty && Happened.IsEmpty && Unheard.IsEmpty ? (Sentence)$"The night was quiet."
            : Sentence.Join(" ", new Sentence?[]
            {
                Water.IsEmpty ? null : (Sentence)$"Water condensed {Spans(Water)}.",
                Unheard.IsEmpty ? null : (Sentence)$"Nobody measured the air {Spans(Unheard)}: what happened then is not known.",
                Happened.IsEmpty ? null : Happened.Length == 1 ? (Sentence)$"{1} warning since {Clock(From.Value, shop)}." : $"{Happened.Length} warnings since {Clock(From.Value, shop)}.",
            }.OfType<Sentence>());
        Sentence[] first = [.. LookFirst.Where(h => h.Hold.Kind is not (HoldKind.KeepDry or HoldKind.NotApplied)).Select(h => h.Name).Distinct()];
        return first.Length == 0 ? (Sentence)$"{night} Nothing has to be looked at first." : $"{night} Look first: {Sentence.Join(", ", first)}.";

        Sentence Spans(ImmutableArray<Spell> spells) =>
            Sentence.Join(", ", spells.Select(s => (Sentence)$"{Clock(s.From, shop)} to {(s.To is { } to ? Clock(to, shop) : $"now")}"));
    }

    private static (Celsius Temperature, DateTimeOffset At)? ColdestSince(BayState bay, DateTimeOffset? from)
    {
        if (from is not { } since)
        {
            return null;
        }

        int[] inside = [.. Enumerable.Range(0, bay.Logs.Length).Where(i => bay.Plan.Probes[i] is { Probe.Measures: not Measures.Outdoor, Place: Place.Outside })];
        Sample? coldest = Coldest([.. inside.Select(i => bay.Logs[i].Panel)]) ?? Coldest([.. inside.Select(i => bay.Logs[i].Air)]);
        return coldest is { } sample ? (Celsius.FromKelvins(sample.Kelvins), sample.At) : null;

        Sample? Coldest(Trail<Sample>[] trails)
        {
            Sample? least = null;
            foreach (Trail<Sample> trail in trails)
            {
                for (int i = trail.CountWhile((in s) => s.At < since); i < trail.Count; i++)
                {
                    least = trail[i].Kelvins >= least?.Kelvins ? least : trail[i];
                }
            }

            return least;
        }
    }

    private static Sentence Clock(DateTimeOffset at, Shop shop) => WallClock.Of(at, shop.Now, shop.Plan.Hours.Zone);
}

/// <summary>A hold to look at.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Car">The car as people call it; null where it has no name.</param>
/// <param name="Hold">The hold, with who can lift it how.</param>
public sealed record MorningHold(string Job, string? Car, Hold Hold)
{
    /// <summary>The surface as people say it, with its car.</summary>
    public Sentence Name => $"{Surface.NameOf(Hold.Surface)}{(Car is null ? Sentence.None : $" of {Car}")}";
}
