using System.Collections.Immutable;
using System.Reflection;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.Warnings;

namespace CureWatch.Tests.Rules;

/// <summary>Every member of a closed family is handled wherever the family is.</summary>
public class ClosedFamilyTests
{
    private static readonly DateTimeOffset Now = TestShop.At(1.1);
    private static readonly Subject Wet = new(WarningKind.Condensing) { Bay = "bay-1" };
    private static readonly RawReading Raw = new("bay-1", "air-1", Now, Now, 20, 50, null);

    private static readonly PlannedWork Wash = new("wash-1", "bay-2", HarmfulWork.Washing, Now, Now.AddHours(1), null, null);

    private static readonly ShopEvent[] OneOfEach =
    [
        new ShopEvent.TimePassed(Now),
        new ShopEvent.ReadingBelieved(Raw),
        new ShopEvent.ReadingDoubted(Raw, Disbelief.Implausible),
        new ShopEvent.ValueStood("bay-1", "air-1", new Still(Quantity.Humidity, new Sample(Now, 293, 1000, 50), null, StillReason.OtherMoved, null)),
        new ShopEvent.ValueMoved("bay-1", "air-1", Quantity.Humidity, IsBorneOut: false),
        new ShopEvent.ProbeOutvoted("bay-1", "air-1", Now),
        new ShopEvent.BacklogFollowed("bay-1"),
        new ShopEvent.JobOpened(new Job("job-2", "bay-2", null, null, [])),
        new ShopEvent.TapTakenDown("job-1", new Tap("levelled", Now, Now, "bonnet", Did.Levelled)),
        new ShopEvent.CondensationBegan("bay-1", Place.Outside, Now),
        new ShopEvent.CondensationEnded("bay-1", Place.Outside, Now),
        new ShopEvent.CondensationWithdrawn("bay-1", Place.Outside, Now),
        new ShopEvent.SurfaceOverheated("job-1", "bonnet", new Overheat(Now, 95, 70)),
        new ShopEvent.AlarmMoved(Wet, new Alarm.Raised()),
        new ShopEvent.WarningRaised(new Warning(Wet, "bonnet", Now, null, null)),
        new ShopEvent.WarningReworded(new Warning(Wet, "bonnet", Now, null, null) { Detail = $"wetter than it was" }),
        new ShopEvent.WarningCleared(Wet, Now),
        new ShopEvent.RulingTurned("job-1", IsReady: true, Now),
        new ShopEvent.RulingForeseen("job-1", Now),
        new ShopEvent.PromiseWatched("job-1", PromiseWatch.None with { LookAt = TestShop.Start }),
        new ShopEvent.LampForeseen("job-1", TestShop.Start),
        new ShopEvent.CarHandedOver("job-2", Now),
        new ShopEvent.JobClosed(JobReport.Of(new TestShop().Shop, "job-1") with { Job = new Job("job-2", "bay-2", null, null, []) }),
        new ShopEvent.PlanReplaced(new ShopPlan("shop", new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty), TimeSpan.Zero, [])),
        new ShopEvent.SheetTakenIn(TestShop.Paint() with { Revision = 99 }),
        new ShopEvent.RefusalsCounted([(Disbelief.Malformed, 2)]),
        new ShopEvent.CoatForeseen(new CoatKey("job-1", "bonnet", 1, 1), Now, FollowedFrom: Now),
        new ShopEvent.BayForeseen("bay-1", new BayAhead(Now, Now, true, new NightAhead(10, Now, 4, Now, 0, null), [])),
        new ShopEvent.LessonsDrawn(
            "job-1", [new DrawnLesson("paint", 1, TaughtStage.Flash, new Lesson("job-1", "bonnet", 1, 1, "bay-1", Now.AddMinutes(-2), Now, 0.1))], Now),
        new ShopEvent.LearningReset("paint", null, Now),
        new ShopEvent.WorkPlanned(Wash),
        new ShopEvent.WorkDropped("wash-1"),
        new ShopEvent.VisitPlanned("job-1", new Visit(Now, -5, null)),
        new ShopEvent.ConflictsForeseen(Now),
    ];

    [Fact]
    public void ShopEvent_OfEveryKind_ChangesTheShop()
    {
        TestShop told = new TestShop().Steady(0, 1).Tap(1, Did.Applied);
        told.Take(new Message.ReadingCame(Raw with { MeasuredAt = TestShop.At(0.995), ReceivedAt = TestShop.At(1) })); // late, and not followed yet
        Shop shop = told.Shop;
        Assert.Equal(Family(typeof(ShopEvent)), OneOfEach.Select(e => e.GetType()));
        foreach (ShopEvent happened in OneOfEach)
        {
            Shop after = Evolution.Evolve(shop, happened);
            Assert.False(after == shop, $"{happened.GetType().Name} changed nothing");
            shop = after;
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void WarningKind_HasItsOwnRule(WarningKind kind)
    {
        AlarmRule rule = AlarmRule.Of(kind);
        Assert.Equal(kind, rule.Kind);
        Assert.InRange(rule.Priority, 1, 3);
        Assert.True(rule.OnDelay >= TimeSpan.Zero && rule.OffDelay >= TimeSpan.Zero && rule.Deadband >= 0 && rule.LeastLooks >= 1);
        Assert.All([rule.Cause, rule.Consequence, rule.Action], s => Assert.False(s.IsNone));
    }

    [Theory]
    [InlineData(WarningKind.HumidityHigh)]
    [InlineData(WarningKind.HumidityLow)]
    public void HumidityWarning_ComesWithinAQuarterOfAnHour(WarningKind kind) => Assert.True(AlarmRule.Of(kind).OnDelay <= TimeSpan.FromMinutes(15));

    [Fact]
    public void Families_AreClosed() => Assert.All(
        new[] { typeof(ShopEvent), typeof(Message), typeof(Alarm) },
        family => Assert.True(
            Array.TrueForAll(family.GetConstructors(BindingFlags.NonPublic | BindingFlags.Instance), c => c.IsPrivate || c.GetParameters() is [{ } copied] && copied.ParameterType == family)
            && Family(family).All(member => member.IsSealed)));

    public static TheoryData<WarningKind> Kinds => [.. Enum.GetValues<WarningKind>()];

    private static IEnumerable<Type> Family(Type parent) => parent.GetNestedTypes().Where(t => t.IsSubclassOf(parent)).OrderBy(t => t.MetadataToken);
}
