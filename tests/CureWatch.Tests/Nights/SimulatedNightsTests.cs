namespace CureWatch.Tests.Nights;

/// <summary>
/// Nights that were lived through: half of them with water on the coldest panel. The seeds are others than those the forecast was tuned with (1 to 5000, 800,000 to 812,999).
/// </summary>
/// <remarks>
/// The full number on demand: <c>dotnet test tests/CureWatch.Tests --filter TwoHundredNights -- xUnit.Explicit=on</c>. Judged once, on seeds nothing was tuned with
/// (1,200,000 on): 91 % of the episodes, 1 % of the quiet nights, 89 % of the ends inside what was told at lock-up, five nights of two hundred warned of twice, no car ready
/// too soon; these here: 96, 9 and 88 %, none and none; from 900,000 on 94, 5 and 89 %, three and none.
/// </remarks>
public class SimulatedNightsTests(ITestOutputHelper output)
{
    private const int Few = 12, All = 200;
    private const int FirstSeed = 500_000;

    [Fact]
    public void FewNights_AreWarnedOfInTime_AndQuietOnesAreLeftInPeace()
    {
        NightScore[] scores = Score(Few);
        NightScore[] wet = [.. scores.Where(s => s.Counts && s.Night.Kind == NightKind.Wet)];
        Assert.True(wet.Count(s => s.WasWarnedInTime) >= wet.Length - 2);
        Assert.True(scores.Count(s => s.Night.Kind == NightKind.Quiet && s.WasWarned) <= 2);
        Assert.DoesNotContain(scores, s => s.WasReadyTooSoon);
    }

    [Fact(Explicit = true)]
    public void TwoHundredNights_AreWarnedOfInTime_AndQuietOnesAreLeftInPeace()
    {
        NightScore[] scores = Score(All);
        NightScore[] wet = [.. scores.Where(s => s.Counts && s.Night.Kind == NightKind.Wet)], told = [.. scores.Where(s => s.Holds is not null)];
        Assert.True(wet.Count(s => s.WasWarnedInTime) >= 0.9 * wet.Length);
        Assert.True(scores.Count(s => s.Night.Kind == NightKind.Quiet && s.WasWarned) <= 0.1 * All / 2);
        Assert.True(scores.Count(s => s.WarnedAt.Length > 1) <= 0.02 * All);
        Assert.InRange(told.Count(s => s.Holds == true) / (double)told.Length, 0.8, 0.95);
        Assert.DoesNotContain(scores, s => s.WasReadyTooSoon);
    }

    private NightScore[] Score(int count)
    {
        NightScore[] scores = [.. NightScore.Draw(count, FirstSeed).Select(NightScore.Of)];
        output.WriteLine(NightScore.Summary(scores));
        return scores;
    }
}
