using System.Collections.Immutable;
using CsCheck;
using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;

namespace CureWatch.Tests.Planning;

/// <summary>Cars planned from a Monday at 10 on, in a shop that is open from 8 to 18 every day.</summary>
public class CarPlannerTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 10, 0, 0, TimeSpan.Zero);
    private static readonly SectionPace Pace = new(TimeSpan.FromMinutes(10), TimeSpan.FromMinutes(10), TimeSpan.Zero);

    private static readonly ShopHours Hours = new(
        Now, Now.AddDays(7), TimeZoneInfo.Utc, [.. Enumerable.Range(0, 8).Select(d => new ShopDay(Now.AddHours(-2 + (24 * d)), Now.AddHours(8 + (24 * d))))]);

    /// <summary>A section flashes in 5 min; the next layer goes on after 1 to 6 h; dry after 10 h.</summary>
    private static readonly CoatTimes OneCoat = new(
        HasToBeLevelled: true,
        new FlashWindow(TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(60), endsInside: true),
        TimeSpan.FromHours(1),
        TimeSpan.FromHours(6),
        new KeepDryTimes(TimeSpan.FromHours(8), TimeSpan.FromHours(9), TimeSpan.FromHours(10)));

    [Fact]
    public void Car_InAFreeBay_BeginsNow()
    {
        CarSlot slot = Planner(Car()).Earliest()!;
        Assert.True(slot.Fits);
        Assert.Equal((Now, Now.AddMinutes(25)), (slot.Start, slot.Plan!.DoneAt));
        Assert.Equal(Now.AddMinutes(25).AddHours(10), slot.ReadyAt!.Latest);
    }

    [Fact]
    public void Start_WaitsForTheBay_TheCar_ItsPanels_AndTheDoors()
    {
        Assert.Equal([BayTaken], Kinds(Planner(Car(), new BayFree(true, Now.AddHours(1), "car-0")).At(Now)));
        Assert.Equal(Now.AddHours(1), Planner(Car(), new BayFree(true, Now.AddHours(1), "car-0")).Earliest()!.Start);
        Assert.Equal([NotHere], Kinds(Planner(Car() with { ComesAt = Now.AddHours(2) }).At(Now)));
        Assert.Equal(Now.AddHours(2), Planner(Car() with { ComesAt = Now.AddHours(2) }).Asked);
        Assert.Equal([Arrival], Kinds(Planner(Car(dryIn: 90)).At(Now)));
        Assert.Equal(Now.AddMinutes(90), Planner(Car(dryIn: 90)).Earliest()!.Start);
        Assert.Equal([Closed], Kinds(Planner(Car()).At(Now.AddHours(12))));
        Assert.Equal([ClosingTime], Kinds(Planner(Car()).At(Now.AddHours(7.9))));
        Assert.Equal(Now.AddHours(22), Planner(Car() with { ComesAt = Now.AddHours(7.9) }).Earliest()!.Start);
    }

    /// <summary>Its panels are dry at 11:30; then somebody sands until 14:00 next to what is touch-dry an hour after its levelling.</summary>
    [Fact]
    public void EarliestStart_SaysWhatOthersKeepItFrom_NotOnlyWhatItWaitsForItself()
    {
        CarSlot slot = Planner(Car(dryIn: 90), null, Work(HarmfulWork.Sanding, 1.5, 4)).Earliest()!;
        Assert.Equal(Now.AddHours(4), slot.Start);
        Assert.StartsWith("Begun 11:30: Sanding", Assert.Single(slot.HeldOffBy).Text.ToString(), StringComparison.Ordinal);
        Assert.Empty(Planner(Car(dryIn: 90)).Earliest()!.HeldOffBy);
    }

    [Fact]
    public void EveryReason_IsSaid_NotTheFirst() => Assert.Equal(
        [Arrival, NotHere, BayTaken, SharedAir, Closed],
        Kinds(Planner(
            Car(dryIn: 14 * 60) with { ComesAt = Now.AddHours(13) },
            new BayFree(true, Now.AddHours(20), "car-0"),
            Work(HarmfulWork.Washing, 15, 16)).At(Now.AddHours(12))).Order());

    [Fact]
    public void Layers_WithTheirWindow_HaveToBeOnBeforeLockUp()
    {
        CarPlanner planner = Planner(Car(layers: 3));
        Assert.Equal(Now.AddMinutes(75).AddHours(2), planner.At(Now).Plan!.DoneAt);
        Assert.Equal([ClosingTime], Kinds(planner.At(Now.AddHours(5))));
        Assert.True(planner.At(Now.AddHours(4.75)).Fits);
    }

    /// <summary>A layer that another takes only after 20 h goes on the next day, and no plan says that no day holds it.</summary>
    [Fact]
    public void Layers_ThatNoDayHolds_GoOnInDifferentDays()
    {
        CoatTimes slow = OneCoat with { RecoatFrom = TimeSpan.FromHours(20), RecoatBy = TimeSpan.FromHours(40) };
        CarSlot slot = Planner(Car(layers: 2, times: slow)).Earliest()!;
        Assert.Equal([Now, Now.AddHours(22)], slot.Plan!.Layers.Select(l => l.BeginsAt));
        Assert.Equal((ClosingTime, StartWeight.Notes), (slot.Reasons[0].Kind, slot.Reasons[0].Weight));
        Assert.Null(Planner(Car(layers: 2, times: slow with { RecoatBy = TimeSpan.FromHours(20.5) })).Earliest() is { } s && s.Start < Now.AddHours(1) ? s : null);
    }

    [Fact]
    public void Promise_ThatNoStartKeeps_IsSaid_AndTheEarliestStartAllTheSame()
    {
        CarSlot slot = Planner(Car() with { PromisedAt = Now.AddHours(9) }).Earliest()!;
        Assert.False(slot.Fits);
        Assert.Equal([Promise], Kinds(slot));
        Assert.Equal(Now, slot.Start);
        Assert.True(Planner(Car() with { PromisedAt = Now.AddHours(23).AddMinutes(15) }).Earliest()!.Fits); // dry at 20:25, doors at 8, finishing 1 h 15 min
        Assert.False(Planner(Car() with { PromisedAt = Now.AddHours(23).AddMinutes(14) }).Earliest()!.Fits);
    }

    [Fact]
    public void Work_ThatWouldHarmIt_MovesTheStart_AndIsNamed()
    {
        CarPlanner planner = Planner(Car(), works: Work(HarmfulWork.Washing, 1, 3));
        StartReason reason = Assert.Single(planner.At(Now).Reasons);
        Assert.Equal("Begun 10:00: Washing in bay-2 11:00 to 13:00 harms bonnet of car-1 in bay-1: it has to stay dry until 20:25.", reason.Text.ToString());
        Assert.Equal(Now.AddHours(3), planner.Earliest()!.Start);
        Assert.Equal(Now, Planner(Car(), works: Work(HarmfulWork.Washing, 1, 3) with { Airspace = "wash-hall" }).Earliest()!.Start);
    }

    [Fact]
    public void What_NobodyCanTell_IsNoStart()
    {
        Assert.Null(Planner(Car(), new BayFree(false, null, "car-0")).Earliest());
        Assert.Null(Planner(Car(dryIn: null)).Earliest());
        Assert.Null(Planner(Car(times: OneCoat with { KeepDry = new KeepDryTimes(null, null, null) })).Earliest());
        CarToPlan unheard = Car();
        unheard = unheard with { Surfaces = [unheard.Surfaces[0] with { Times = [] }] };
        Assert.Equal([AirSilent], Kinds(Planner(unheard).At(Now)));
        Assert.Null(Planner(unheard).Earliest());
    }

    // Every minute is tried until the one that was found: none before fits, and that one does, checked by a rule said once more.
    [Fact]
    public void EarliestStart_Fits_AndNoMinuteBeforeIt() => Gen.Select(AnyCar, AnyFree, AnyWorks).Sample(
        (car, free, works) =>
        {
            CarPlanner planner = Planner(car, free, works);
            CarSlot? found = planner.Earliest();
            for (DateTimeOffset at = Now; at < (found?.Start ?? Now.AddDays(1)); at += CarPlanner.Step)
            {
                Assert.False(planner.At(at).IsPossible, $"{at:ddd HH:mm} fits, but {found?.Start:ddd HH:mm} was found");
            }

            if (found is not null)
            {
                Assert.True(IsSound(found, car, free, works));
                Assert.True(found.IsPossible);
            }
        },
        iter: 20);

    [Fact]
    public void SlotWithoutAReason_OverlapsNothing() => Gen.Select(AnyCar, AnyFree, AnyWorks, Gen.Int[0, 2_000]).Sample(
        (car, free, works, minute) =>
        {
            CarSlot slot = Planner(car, free, works).At(Now.AddMinutes(minute));
            Assert.True(!slot.IsPossible || IsSound(slot, car, free, works));
        },
        iter: 3_000);

    /// <summary>The rules once more: in the day, in the bay, on dry panels, in order, and nothing harmful beside what is open.</summary>
    private static bool IsSound(CarSlot slot, CarToPlan car, BayFree free, AirWork[] works)
    {
        ImmutableArray<LayerWork> layers = slot.Plan!.Layers;
        bool isInside = layers.All(l => Hours.Days.Any(d => d.Opens <= l.BeginsAt && l.DoneAt <= d.LocksUp));
        bool isThere = free.IsKnown && !(free.At > slot.Start) && !(car.ComesAt > slot.Start) && layers[0].BeginsAt == slot.Start;
        bool isDry = layers.All(l => car.Surfaces.First(s => s.Surface == l.Surface).DryFrom <= l.BeginsAt);
        bool isInOrder = layers.Zip(layers.Skip(1)).All(p => p.First.DoneAt <= p.Second.BeginsAt);
        bool isHarmed = (
            from layer in layers
            from work in works
            where work.Airspace == "hall" && work.From < End(layer, work.Work) && work.To > layer.BeginsAt
            select layer).Any();
        return isInside && isThere && isDry && isInOrder && !isHarmed;
    }

    /// <summary>Solvent until it is levelled, touch-dry an hour after, dry 10 h after.</summary>
    private static DateTimeOffset End(LayerWork layer, HarmfulWork work) => work switch
    {
        HarmfulWork.Lamp or HarmfulWork.Heater => layer.DoneAt,
        HarmfulWork.Washing or HarmfulWork.DoorsOpen => layer.DoneAt.AddHours(10),
        _ => layer.DoneAt.AddHours(1),
    };

    private static readonly Gen<CarToPlan> AnyCar = Gen.Select(
        Gen.Int[1, 3].Array[1, 3], Gen.Int[-60, 900].Array[3], Gen.Int[-60, 1_000], Gen.Int[1, 8], Gen.Int[0, 40]).Select(
        (layers, dry, comes, sections, promised) => new CarToPlan(
            "car-1",
            "bay-1",
            "hall",
            [.. layers.Select((l, i) => Surface($"panel-{i}", l, sections, dry[i], OneCoat))],
            comes <= 0 ? null : Now.AddMinutes(comes),
            null,
            promised == 0 ? null : Now.AddHours(promised)));

    private static readonly Gen<BayFree> AnyFree = Gen.Int[-100, 1_500].Select(m => m < 0 ? BayFree.Now : new BayFree(true, Now.AddMinutes(m), "car-0"));

    private static readonly Gen<AirWork[]> AnyWorks = Gen.Select(Gen.Enum<HarmfulWork>(), Gen.Int[0, 2_000], Gen.Int[5, 200], Gen.Int[0, 4]).Select(
        (work, from, length, air) => new AirWork("w", null, "bay-2", air == 0 ? "elsewhere" : "hall", work, Now.AddMinutes(from), Now.AddMinutes(from + length))).Array[0, 3];

    private static IEnumerable<StartReasonKind> Kinds(CarSlot slot) => slot.Reasons.Select(r => r.Kind);

    private static CarPlanner Planner(CarToPlan car, BayFree? free = null, params AirWork[] works) => new(
        car, free ?? BayFree.Now, works, Pace, Hours, at => Hours.Fit(at, TimeSpan.FromMinutes(75)) is { } begun ? begun + TimeSpan.FromMinutes(75) : at.AddDays(1));

    private static CarToPlan Car(int layers = 1, double? dryIn = 0, CoatTimes? times = null) =>
        new("car-1", "bay-1", "hall", [Surface("bonnet", layers, 1, dryIn, times ?? OneCoat)], null, null, null);

    private static SurfaceToPlan Surface(string id, int layers, int sections, double? dryIn, CoatTimes times) => new(
        id,
        sections,
        Now + (dryIn is { } minutes ? TimeSpan.FromMinutes(minutes) : null),
        [.. Enumerable.Repeat(times, layers)],
        [.. Enumerable.Repeat(new RiskTimes(HasSolvent: true, TimeSpan.FromHours(1)), layers)]);

    private static AirWork Work(HarmfulWork work, double fromHour, double toHour) => new("w-1", null, "bay-2", "hall", work, Now.AddHours(fromHour), Now.AddHours(toHour));
}
