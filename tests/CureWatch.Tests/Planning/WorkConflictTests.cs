using System.Collections.Immutable;
using CsCheck;
using CureWatch.Planning;

namespace CureWatch.Tests.Planning;

/// <summary>Work beside open coats, minute by minute from 8 o'clock of a day from 8 to 18.</summary>
public class WorkConflictTests
{
    private static readonly DateTimeOffset Eight = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private static readonly ShopHours Hours = new(
        Eight, Eight.AddHours(34), TimeZoneInfo.Utc, [new ShopDay(Eight, Eight.AddHours(10)), new ShopDay(Eight.AddHours(24), Eight.AddHours(34))]);

    /// <summary>Solvent until 20 min after the first wipe, touch-dry after 80, another layer until 200, dry after 600.</summary>
    private static readonly CoatAtRisk Coat = new("car-1", "bonnet", "bay-1", "hall", At(60), At(80), At(140), At(260), At(660));

    [Theory]
    [InlineData(HarmfulWork.Washing, 60, 660)]
    [InlineData(HarmfulWork.DoorsOpen, 60, 660)]
    [InlineData(HarmfulWork.Compounding, 60, 140)]
    [InlineData(HarmfulWork.Sanding, 60, 140)]
    [InlineData(HarmfulWork.CarComesIn, 60, 140)]
    [InlineData(HarmfulWork.SiliconeSpray, 60, 260)]
    [InlineData(HarmfulWork.Lamp, 60, 80)]
    [InlineData(HarmfulWork.Heater, 60, 80)]
    public void Work_HarmsUntilItsStageStopsMattering(HarmfulWork work, double from, double to)
    {
        Assert.Empty(Between(Work(work, from - 30, from)));
        Assert.Empty(Between(Work(work, to, to + 30)));
        WorkConflict conflict = Assert.Single(Between(Work(work, from - 30, to + 30)));
        Assert.Equal((At(from), At(to), At(to)), (conflict.From, conflict.To, conflict.OpenUntil));
        Assert.Equal(("car-1", "bay-1", Harms.Of(work)), (conflict.Job, conflict.Bay, conflict.Harm));
        Assert.Equal(["bonnet"], conflict.Surfaces);
    }

    [Fact]
    public void Work_InAnAirOfItsOwn_OrOnTheCarItself_HarmsNobody()
    {
        Assert.Empty(Between(Work(HarmfulWork.Washing, 60, 90) with { Airspace = "wash-hall" }));
        Assert.Empty(Between(Work(HarmfulWork.Washing, 60, 90) with { Job = "car-1" }));
        Assert.Single(Between(Work(HarmfulWork.Washing, 60, 90) with { Job = "car-2" }));
        Assert.Single(Between(Work(HarmfulWork.Lamp, 60, 90) with { Job = "car-1" })); // its vapour does not care whose lamp it is
        Assert.Empty(WorkConflict.Between([Work(HarmfulWork.Lamp, 60, 90)], [Coat with { SolventUntil = null }], Hours));
    }

    [Fact]
    public void Harm_WithoutAnEndAnybodyKnows_IsNotTakenForOver()
    {
        WorkConflict conflict = Assert.Single(WorkConflict.Between([Work(HarmfulWork.Washing, 900, 930)], [Coat with { From = At(-60), DryAt = null }], Hours));
        Assert.Equal((null, (DateTimeOffset?)null), (conflict.OpenUntil, conflict.FreeFrom));
    }

    /// <summary>Another layer goes on before the harm to the first one is over: nobody may take the first one's end for the surface's.</summary>
    [Fact]
    public void Harm_GoesOnWithTheLayerThatIsToCome_AsTheFreeTimeDoes()
    {
        CoatAtRisk second = Coat with { From = At(130), TouchDryAt = At(210), SiliconeUntil = At(210), DryAt = At(730) };
        CoatAtRisk apart = Coat with { Surface = "screen", From = At(130), TouchDryAt = At(300) }, later = second with { From = At(211), TouchDryAt = At(400) };
        WorkConflict conflict = Assert.Single(WorkConflict.Between([Work(HarmfulWork.Sanding, 70, 131)], [Coat, second, later], Hours));
        Assert.Equal((At(131), At(210)), (conflict.To, conflict.OpenUntil));
        Assert.Equal(At(730), Assert.Single(WorkConflict.Between([Work(HarmfulWork.Washing, 70, 100)], [Coat, second, apart], Hours)).OpenUntil);
        Assert.Equal(At(140), Assert.Single(WorkConflict.Between([Work(HarmfulWork.Sanding, 70, 100)], [Coat, apart], Hours)).OpenUntil);
        Assert.Null(Assert.Single(WorkConflict.Between([Work(HarmfulWork.Sanding, 70, 100)], [Coat, second with { TouchDryAt = null }], Hours)).OpenUntil);
    }

    [Fact]
    public void Silicone_BelowALayerNobodyPlanned_EndsWithThatOne() => Assert.EndsWith(
        "silicone makes craters in it until its last layer is touch-dry.",
        ConflictWords.Of(Assert.Single(WorkConflict.Between([Work(HarmfulWork.SiliconeSpray, 70, 80)], [Coat with { SiliconeUntil = null }], Hours)), Hours).ToString(),
        StringComparison.Ordinal);

    [Fact]
    public void Words_SayWhoHarmsWhom_UntilWhen() => Assert.Equal(
        "Washing in bay-2 10:00 to 10:30 harms bonnet of car-1 in bay-1: it has to stay dry until 19:00.",
        ConflictWords.Of(Assert.Single(Between(Work(HarmfulWork.Washing, 120, 150))), Hours).ToString());

    [Fact]
    public void FreeTime_IsTheNearest_AlsoBefore()
    {
        Assert.Equal(At(30), Assert.Single(Between(Work(HarmfulWork.Compounding, 70, 100))).FreeFrom);
        Assert.Equal(At(140), Assert.Single(Between(Work(HarmfulWork.Compounding, 110, 140))).FreeFrom);
        Assert.Equal(At(15), Assert.Single(Between(Work(HarmfulWork.Washing, 550, 595))).FreeFrom);
        WorkConflict late = Assert.Single(WorkConflict.Between([Work(HarmfulWork.Washing, 550, 595)], [Coat with { From = At(-60) }], Hours));
        Assert.Equal(At(24 * 60), late.FreeFrom); // dry at 19:00, after lock-up
        Assert.Null(Assert.Single(WorkConflict.Between([Work(HarmfulWork.Washing, -10, 70)], [Coat], Hours)).FreeFrom); // it goes on already
    }

    // Tried minute by minute: no conflict is missed or invented, the free time is free, and none is nearer.
    [Fact]
    public void Conflicts_AndFreeTimes_AreThoseOfATrialMinuteByMinute() => Gen.Select(AnyWork, AnyCoat.Array[0, 5]).Sample(
        (work, coats) =>
        {
            ImmutableArray<WorkConflict> conflicts = WorkConflict.Between([work], coats, Hours);
            int from = Minute(work.From), to = Minute(work.To);
            int[] open = [.. Enumerable.Range(0, (34 * 60) + 241).Where(m => coats.Any(c => IsOpen(c, work, m)))];
            bool Harms(int start) => Array.BinarySearch(open, start) is var i && (i >= 0 || (~i < open.Length && open[~i] < start + to - from));
            Assert.Equal(Harms(from), !conflicts.IsEmpty);
            foreach (WorkConflict conflict in conflicts)
            {
                int[] harmed = [.. Enumerable.Range(Math.Max(0, from), Math.Max(0, to - Math.Max(0, from))).Where(m => coats.Any(c => c.Job == conflict.Job && c.Bay == conflict.Bay && IsOpen(c, work, m)))];
                Assert.Equal((harmed[0], harmed[^1] + 1), (Minute(conflict.From), Minute(conflict.To)));
            }

            bool keepsHours = Hours.IsOpen(work.From, work.To);
            int[] free = [.. Enumerable.Range(0, (34 * 60) + 1).Where(m => (!keepsHours || Hours.IsOpen(At(m), At(m + to - from))) && !Harms(m))];
            DateTimeOffset? nearest = WorkConflict.NearestFree(work, coats, Hours);
            Assert.Equal(free.Length == 0 ? (int?)null : free.Min(m => Math.Abs(m - from)), nearest is { } at ? Math.Abs(Minute(at) - from) : (int?)null);
            Assert.True(nearest is null || free.Contains(Minute(nearest.Value)));
        },
        iter: 2_000);

    private static readonly Gen<AirWork> AnyWork = Gen.Select(Gen.Enum<HarmfulWork>(), Gen.Int[0, 1_500], Gen.Int[1, 240], Gen.Int[1, 3]).Select(
        (work, from, length, job) => Work(work, from, from + length) with { Job = job == 3 ? null : $"car-{job}" });

    private static readonly Gen<CoatAtRisk> AnyCoat = Gen.Select(Gen.Int[-300, 1_500], Gen.Int[0, 60], Gen.Int[0, 200], Gen.Int[0, 900], Gen.Int[0, 15]).Select(
        (from, solvent, touchDry, dry, odd) => new CoatAtRisk(
            $"car-{1 + (odd % 2)}",
            "bonnet",
            "bay-1",
            odd == 4 ? "elsewhere" : "hall",
            At(from),
            odd == 5 ? null : At(from + solvent),
            odd == 6 ? null : At(from + touchDry),
            odd == 6 ? null : At(from + touchDry + 20),
            odd == 7 ? null : At(from + dry)));

    /// <summary>The rule once more, said of a minute.</summary>
    private static bool IsOpen(CoatAtRisk coat, AirWork work, int minute)
    {
        DateTimeOffset at = At(minute);
        bool isFire = work.Work is HarmfulWork.Lamp or HarmfulWork.Heater;
        DateTimeOffset? until = work.Work switch
        {
            HarmfulWork.Lamp or HarmfulWork.Heater => coat.SolventUntil,
            HarmfulWork.Washing or HarmfulWork.DoorsOpen => coat.DryAt ?? DateTimeOffset.MaxValue,
            HarmfulWork.SiliconeSpray => coat.SiliconeUntil ?? DateTimeOffset.MaxValue,
            _ => coat.TouchDryAt ?? DateTimeOffset.MaxValue,
        };
        return coat.Airspace == work.Airspace && (isFire || work.Job != coat.Job) && coat.From <= at && until > at;
    }

    private static ImmutableArray<WorkConflict> Between(AirWork work) => WorkConflict.Between([work], [Coat], Hours);

    private static AirWork Work(HarmfulWork work, double from, double to) => new("w-1", null, "bay-2", "hall", work, At(from), At(to));

    private static DateTimeOffset At(double minutes) => Eight.AddMinutes(minutes);

    private static int Minute(DateTimeOffset at) => (int)Math.Round((at - Eight).TotalMinutes);
}
