using System.Globalization;
using CureWatch.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Nights;

/// <summary>What became of one night: what was warned of and what was true.</summary>
/// <param name="Night">The night.</param>
/// <param name="WarnedAt">The minutes at which water was warned of ahead, from the coat to the opening.</param>
/// <param name="ToldWetAt">The minutes at which water was told of that condensed already, as the probes have it.</param>
/// <param name="EndsAt">The minute keep-dry truly ends; null where it lies beyond the simulation.</param>
/// <param name="Holds">Whether what was told of the end of keep-dry at lock-up held the truth; null where the truth lies beyond the simulation.</param>
/// <param name="WasReadyTooSoon">Whether the car was ruled ready before keep-dry truly ended.</param>
internal sealed record NightScore(Night Night, int[] WarnedAt, int[] ToldWetAt, int? EndsAt, bool? Holds, bool WasReadyTooSoon)
{
    private const int TwoHours = 120;

    /// <summary>A coat that gets wet sooner after it went on than this cannot be warned of two hours ahead [min].</summary>
    private const int Foreseeable = 150;

    /// <summary>Nor does water harm a coat that is dry for good: of that nobody is told.</summary>
    public bool Counts => Night.Kind != NightKind.Wet || (Night.WetFrom - Night.CoatedAt >= Foreseeable && !(Night.WetFrom >= EndsAt));

    /// <summary>Who is told that water condenses now is warned too: before it truly does, where a bay is at the limit and a probe a little off.</summary>
    public bool WasWarnedInTime => WarnedAt.Concat(ToldWetAt).Any(m => m <= Night.WetFrom - TwoHours);

    public bool WasWarned => WarnedAt.Length + ToldWetAt.Length > 0;

    /// <summary>Draws nights until there are enough of both kinds, half of them wet.</summary>
    public static IReadOnlyList<Night> Draw(int count, int firstSeed)
    {
        var drawn = new List<Night>();
        int[] wanted = [count - (count / 2), 0, count / 2];
        for (int seed = firstSeed; wanted.Sum() > 0; seed++)
        {
            var night = new Night(seed);
            if (wanted[(int)night.Kind]-- > 0)
            {
                drawn.Add(night);
            }
            else
            {
                wanted[(int)night.Kind]++;
            }
        }

        return drawn;
    }

    public static NightScore Of(Night night)
    {
        var cure = new TrueCure(new Chance(night.Seed + 2_000_000), night, NightRun.KeepDryHours);
        int? end = cure.EndOf(night);
        TimeBounds? told = null;
        int lockUp = Math.Max(night.CoatedAt + 30, night.OpensAt - (14 * 60));
        bool wasTooSoon = false;
        NightRun run = new NightRun(night).Until(Math.Max(night.OpensAt, end ?? 0), (minute, shop) =>
        {
            told = minute <= lockUp && minute > night.CoatedAt ? JobReport.Of(shop, "car").Ruling.ReadyAt : told;
            wasTooSoon |= minute > night.CoatedAt && minute < end && shop.Find("car")!.IsReady;
        });
        bool? holds = end is { } at && told is { Earliest: { } earliest, Latest: { } latest }
            ? earliest <= NightRun.At(at) && NightRun.At(at) <= latest
            : null;
        return new NightScore(night, Told(WarningKind.CondensingAhead), Told(WarningKind.Condensing), end, holds, wasTooSoon);

        int[] Told(WarningKind kind) =>
            [.. run.Shop.Warnings.Values.Where(w => w.Subject.Kind == kind).Select(w => NightRun.MinuteOf(w.RaisedAt)).Where(m => m < night.OpensAt)];
    }

    /// <summary>The figures that the issue asks for, and where they come from.</summary>
    public static string Summary(IReadOnlyCollection<NightScore> scores)
    {
        NightScore[] wet = [.. scores.Where(s => s.Counts && s.Night.Kind == NightKind.Wet)], quiet = [.. scores.Where(s => s.Night.Kind == NightKind.Quiet)];
        NightScore[] told = [.. scores.Where(s => s.Holds is not null)];
        var lines = new List<string>
        {
            Line("episodes warned two hours ahead", wet.Count(s => s.WasWarnedInTime), wet.Length),
            Line("quiet nights warned", quiet.Count(s => s.WasWarned), quiet.Length),
            Line("warned more than once", scores.Count(s => s.WarnedAt.Length > 1), scores.Count),
            Line("keep-dry ends as told at lock-up", told.Count(s => s.Holds == true), told.Length),
            Line("ready before the true end", scores.Count(s => s.WasReadyTooSoon), scores.Count),
        };
        lines.AddRange(scores.GroupBy(s => s.Night.HistoryDays).OrderBy(g => g.Key).Select(g =>
            $"  {g.Key} days before: {Line("warned", g.Count(s => s.Counts && s.Night.Kind == NightKind.Wet && s.WasWarnedInTime), g.Count(s => s.Counts && s.Night.Kind == NightKind.Wet))}, "
            + Line("quiet warned", g.Count(s => s.Night.Kind == NightKind.Quiet && s.WasWarned), g.Count(s => s.Night.Kind == NightKind.Quiet))));
        return string.Join(Environment.NewLine, lines);
    }

    private static string Line(string what, int count, int of) =>
        string.Create(CultureInfo.InvariantCulture, $"{what}: {count} of {of} ({100.0 * count / Math.Max(1, of):0} %)");
}
