using System.Globalization;

namespace CureWatch.Tests.Stills;

/// <summary>
/// How often a sound probe is doubted for standing still, and a frozen one seen: bays and probes of many kinds, told by a generator that shares nothing
/// with the rule. DEVELOPERS.md has what more of them say; the limits here are what these few reach, and may only get tighter.
/// </summary>
/// <remarks>More on demand: <c>dotnet test tests/CureWatch.Tests --filter ManyProbes -- xUnit.Explicit=on</c>. The rule was found with the seeds 1 to 1,200.</remarks>
public class FrozenProbesTests(ITestOutputHelper output)
{
    private const int FirstSeed = 500_000;

    /// <summary>How often in a day a sound probe may be told to stand still, as advice: 1.6 in a hundred days of 1,200 seeds on 2026-11-28.</summary>
    private const double MostNoticed = 0.02;

    [Fact]
    public void FewProbes_StandStill_OnlyWhereTheyAreFrozen() => Judge(few: 60, mostDoubted: 0.02, leastSeenBesideATwin: 0.45, leastReckonedWith: 0.7);

    [Fact(Explicit = true)]
    public void ManyProbes_StandStill_OnlyWhereTheyAreFrozen() => Judge(few: 1200, mostDoubted: 0.01, leastSeenBesideATwin: 0.55, leastReckonedWith: 0.75);

    private void Judge(int few, double mostDoubted, double leastSeenBesideATwin, double leastReckonedWith)
    {
        StillOutcome[] sound = [.. Seeds(few).Select(seed => StillTrial.Draw(seed, isSound: true).Live())];
        StillOutcome[] frozen = [.. Seeds(few).Select(seed => StillTrial.Draw(seed, isSound: false).Live())];
        Tell(sound, frozen);
        Assert.True(sound.Sum(o => o.Doubted.Count()) <= mostDoubted * sound.Sum(o => o.ProbeDays), "sound probes doubted");
        Assert.Equal(0, sound.Sum(o => o.Told));
        Assert.True(sound.Sum(o => o.Noticed) <= MostNoticed * sound.Sum(o => o.ProbeDays), "sound probes told to stand still");
        StillOutcome[] air = [.. frozen.Where(o => o.Trial is { What: not Frozen.Panel, HasTwin: true })];
        Assert.True(air.Count(o => o.DelayHours is not null) >= leastSeenBesideATwin * air.Length, "frozen air probes beside a twin unseen");
        Assert.True(sound.Sum(o => o.Suspected.Count()) <= 0.3 * sound.Sum(o => o.ProbeDays), "sound probes suspected");
        StillOutcome[] harmful = [.. frozen.Where(o => o.Matters)];
        Assert.True(harmful.Count(o => o.SuspectedAfterHours is not null) >= leastReckonedWith * harmful.Length, "what a frozen probe hid was not reckoned with");
        Assert.All(frozen.Where(o => o.Trial is { What: Frozen.Air, StepK: <= 0.1, StepPct: <= 0.1, IsDeadband: false } && o.Trial.Every <= TimeSpan.FromMinutes(1)), o => Assert.NotNull(o.DelayHours));
    }

    private static IEnumerable<int> Seeds(int count) => Enumerable.Range(FirstSeed, count);

    private void Tell(StillOutcome[] sound, StillOutcome[] frozen)
    {
        foreach (IGrouping<string, StillOutcome> kind in sound.SelectMany(o => KindsOf(o.Trial).Select(k => (Kind: k, Outcome: o))).GroupBy(k => k.Kind, k => k.Outcome))
        {
            double days = kind.Sum(o => o.ProbeDays);
            output.WriteLine(Text($"sound {kind.Key}: {days} probe-days, a hundred of them doubted {100 * kind.Sum(o => o.Doubted.Count()) / days:0.0} times, told still {100 * kind.Sum(o => o.Noticed) / days:0.0}, stuck {100 * kind.Sum(o => o.Told) / days:0.0}; {60 * kind.Sum(o => o.HoursKept + o.HoursPutBack) / days:0.0} min a day; suspected {100 * kind.Sum(o => o.Suspected.Count()) / days:0.0} times, {60 * kind.Sum(o => o.HoursSuspected) / days:0.0} min a day"));
        }

        foreach (IGrouping<string, StillOutcome> kind in frozen.SelectMany(o => KindsOf(o.Trial).Select(k => (Kind: $"{o.Trial.What} {k}", Outcome: o))).GroupBy(k => k.Kind, k => k.Outcome).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            double[] delays = [.. kind.Select(o => o.DelayHours).OfType<double>().Order()], missed = [.. kind.Where(o => o.DelayHours is null).Select(o => o.Strayed).Order()];
            StillOutcome[] harmful = [.. kind.Where(o => o.Matters)];
            output.WriteLine(Text($"frozen {kind.Key}: {kind.Count()}, of {harmful.Length} off by 1 K or 4 % RH {100.0 * harmful.Count(o => o.SuspectedAfterHours is not null) / harmful.Length:0} % suspected or seen, {100.0 * harmful.Count(o => o.DelayHours is not null) / harmful.Length:0} % seen; of all seen {100.0 * delays.Length / kind.Count():0} %, after {At(delays, 0.5):0.0} h, 90 % {At(delays, 0.9):0.0} h; where unseen it was off by {At(missed, 0.5):0.0}, 90 % {At(missed, 0.9):0.0}"));
        }
    }

    private static string[] KindsOf(StillTrial trial) =>
    [
        "all",
        trial.FromHour < 24 ? "first day" : "second day",
        $"bay {trial.Bay}",
        Text($"steps {trial.StepK} K {trial.StepPct} %"),
        $"every {trial.Every}",
        trial.IsDeadband ? "dead band" : "no dead band",
        (trial.HasTwin, trial.HasPanel) switch { (true, true) => "twin and panel", (true, false) => "twin", (false, true) => "panel", _ => "alone" },
    ];

    private static double At(double[] sorted, double share) => sorted.Length == 0 ? double.NaN : sorted[(int)(share * (sorted.Length - 1))];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
