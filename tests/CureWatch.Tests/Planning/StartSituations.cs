using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>The surface of <see cref="StartCase"/>, spoilt one way at a time, or left just inside what spoils it.</summary>
internal static class StartSituations
{
    public static StartEvidence Of(string situation) => situation switch
    {
        "cabin without a probe" => Fine with { Air = null, Panel = null, Times = [], Silence = new Silence(null, null, $"the cabin in bay-1") },
        "air silent" => Fine with { Air = null, Panel = null, Times = [], Silence = new Silence("air", At(-40), $"bay-1") },
        "panel silent" => Fine with { Panel = null, Silence = new Silence("bonnet", At(-40), $"bay-1") },
        "wet panel" => Fine with { Panel = Panel(9), Laws = Lenient },
        "wet elsewhere" => OverFirst with { Wet = new Wetness(At(-30), null), Next = SecondLayer(-60, null) },
        "thin spread" => Fine with { Panel = Panel(12.2, standardK: 0) },
        "spread thin at its bound" => Fine with { Panel = Panel(13, standardK: 0.5) },
        "wide spread" => Fine with { Panel = Panel(13.5, standardK: 0.5) },
        "cold panel" => Fine with { Air = Air(9.9, 40), Panel = Panel(9.9) },
        "cold panel in warm air" => Fine with { Air = Air(15, 40), Panel = Panel(9.9) },
        "come in cold" => Fine with { Panel = Panel(20, standardK: 1, basis: PanelBasis.Air), Arrival = new ArrivalLook(Until(30), 4, NeedsWipe: false) },
        "come in cold, read warm by hand" => Fine with { Panel = Panel(19, basis: PanelBasis.Spot), Arrival = new ArrivalLook(Until(30), 4, NeedsWipe: false) },
        "come in cold and wet, its probe says warm" => Fine with
        {
            Panel = Panel(19, basis: PanelBasis.ItsProbe),
            Arrival = new ArrivalLook(Until(30), 4, NeedsWipe: true),
        },
        "come in cold where a probe was before it" => Fine with
        {
            Panel = Panel(19, basis: PanelBasis.OwnProbe),
            Arrival = new ArrivalLook(Until(30), 4, NeedsWipe: false),
        },
        "come in nobody knows how cold, where a probe is" => Fine with
        {
            Panel = Panel(19, basis: PanelBasis.OwnProbe),
            Arrival = new ArrivalLook(Until(30), null, NeedsWipe: true),
        },
        "come in cold and still wet, not wiped" => Fine with
        {
            Panel = Panel(19, basis: PanelBasis.OwnProbe),
            Arrival = new ArrivalLook(Until(30), 4, NeedsWipe: true),
            Preparation = Wiped(null),
        },
        "come in cold to damp air" => Fine with
        {
            Panel = Panel(20, standardK: 1, basis: PanelBasis.Air),
            Arrival = new ArrivalLook(new TimeBounds(At(5), At(20), null), 4, NeedsWipe: false),
        },
        "come in cold and wet" => Fine with { Arrival = new ArrivalLook(Until(-20), 15, NeedsWipe: true) },
        "panel at its limit" => Fine with { Air = Air(15, 40), Panel = Panel(10) },
        "cold panel reckoned from the air" => Fine with { Air = Air(11, 40), Panel = Panel(11, standardK: 1, basis: PanelBasis.Air) },
        "hot panel" => Fine with { Panel = Panel(25, 30.1) },
        "panel at its upper limit" => Fine with { Panel = Panel(25, 30) },
        "hot panel taken from others" => Fine with { Panel = Panel(29, standardK: 1, basis: PanelBasis.OtherProbes) },
        "moist air" => Fine with { Air = Air(20, 75.1), Panel = Panel(20) },
        "air at its limits" => Fine with { Air = Air(20, 75) with { HumidityMinPct = 30 }, Panel = Panel(20) },
        "dry air" => Fine with { Air = Air(20, 29.9) },
        "lamp on" => Fine with { Preparation = Prepared((-20, Did.LampOn, null), (-10, Did.PanelWiped, null)) },
        "lamp off, not measured" => Fine with { Preparation = Prepared((-20, Did.LampOn, null), (-10, Did.LampOff, null), (-5, Did.PanelWiped, null)) },
        "lamp off, read hot" => Fine with { AfterLamp = ReadHot(-10), Preparation = AfterLamp(panelC: 29) },
        "lamp off, reckoned cool" => Fine with { AfterLamp = ReadHot(-20), Panel = Panel(31, basis: PanelBasis.Spot), Preparation = AfterLamp(panelC: 60) },
        "lamp off, not read, reckoned cool" => Fine with
        {
            AfterLamp = CoolDown.After(new Spell(At(-90), At(-60)), [], 20, 30, 65, TimeSpan.FromMinutes(6), Now),
            Preparation = Prepared((-90, Did.LampOn, null), (-60, Did.LampOff, null), (-5, Did.PanelWiped, null)),
        },
        "polished" => Fine with { Preparation = Prepared((-20, Did.Polished, null), (-10, Did.PanelWiped, null)) },
        "polished, measured too hot" => Fine with
        {
            Preparation = Prepared((-20, Did.Polished, null), (-15, Did.Measured, 31), (-10, Did.PanelWiped, null)),
        },
        "polished, measured cool, wiped" => Fine with
        {
            Preparation = Prepared((-20, Did.Polished, null), (-15, Did.Measured, 25), (-10, Did.PanelWiped, null)),
        },
        "polished, measured twice, wiped" => Fine with
        {
            Preparation = Prepared((-30, Did.Polished, null), (-25, Did.Measured, 40), (-15, Did.Measured, 29), (-10, Did.PanelWiped, null)),
        },
        "polished, with a probe of its own" => Fine with
        {
            Panel = Panel(19, basis: PanelBasis.ItsProbe),
            Preparation = Prepared((-20, Did.Polished, null), (-10, Did.PanelWiped, null)),
        },
        "washed" => Fine with { Wettings = [new Wetting(At(-90), At(-80)), new Wetting(At(-30), null)] },
        "dried a moment ago" => Fine with { Wettings = [new Wetting(At(-30), At(-5))] },
        "dried long ago" => Fine with { Wettings = [new Wetting(At(-60), At(-30))] },
        "never wiped" => Fine with { Preparation = Wiped(null) },
        "wiped long ago" => Fine with { Preparation = Wiped(-46) },
        "wiped 45 min ago" => Fine with { Preparation = Wiped(-45) },
        "wiped and measured" => Fine with { Preparation = Wiped(-10, Did.Measured, -5, 19) },
        "wiped and polished" => OverFirst with { Preparation = Wiped(-10, Did.Polished, -5), Next = SecondLayer(-60, null) },
        "wiped before it was wet" => Fine with { Wet = new Wetness(null, At(-5)) },
        "wiped after it was wet" => Fine with { Wet = new Wetness(null, At(-11)) },
        "wiped just now" => Fine with { Preparation = Wiped(-2) },
        "cloth never wiped" => Fine with { Surface = Fine.Surface with { Material = Material.Fabric }, Preparation = Wiped(null) },
        "second layer not wiped" => OverFirst with { Preparation = Wiped(null), Next = SecondLayer(-60, null) },
        "layer below not levelled" => OverFirst with { Next = SecondLayer(-60, null, levelled: false) },
        "layer below held" => OverFirst with { Next = SecondLayer(-60, null, levelled: true, "Dust found 09:00; rework, then inspect and find clear.") },
        "recoat to come" => OverFirst with { Next = SecondLayer(30, 120) },
        "recoat over" => OverFirst with { Next = SecondLayer(-60, -1) },
        "recoat open" => OverFirst with { Next = SecondLayer(-60, 120) },
        "recoat without an end" => OverFirst with { Next = SecondLayer(-60, null) },
        "untimed level-off" => Fine with { Times = Same(OneCoat with { Flash = new FlashWindow(TimeSpan.FromMinutes(3), TimeSpan.FromMinutes(2), endsInside: true) }) },
        "cold night" => Fine with { Night = Always(new NightAhead(9.5, At(13 * 60), 5, At(13 * 60), 0, null)) },
        "cold night, dry before lock-up" => Fine with
        {
            Night = Always(new NightAhead(9.5, At(13 * 60), 5, At(13 * 60), 0, null)),
            Times = Same(OneCoat with { KeepDry = new KeepDryTimes(TimeSpan.FromHours(1), TimeSpan.FromHours(2), TimeSpan.FromHours(3)) }),
        },
        "wet night" => Fine with { Night = Always(new NightAhead(12, At(13 * 60), -0.2, At(13.5 * 60), 0.6, At(13 * 60))) },
        "nothing left" => Fine with { Next = null },
        "no car yet" => Fine with { Preparation = null },
        _ => throw new ArgumentOutOfRangeException(nameof(situation), situation, "No such situation."),
    };

    /// <summary>60 °C at a minute, in air of 20 °C: at 25 °C, as it may be, 6·ln 8 = 12.5 min after.</summary>
    private static CoolDown ReadHot(double minute) => CoolDown.After(
        new Spell(At(-50), At(minute - 1)), [new OwnReading(At(minute), 60, OwnReading.ReachOfSpot)], 20, 30, 65, TimeSpan.FromMinutes(6), Now);

    private static Preparation AfterLamp(double panelC) =>
        Prepared((-50, Did.LampOn, null), (-21, Did.LampOff, null), (-20, Did.Measured, panelC), (-5, Did.PanelWiped, null));

    private static TimeBounds Until(double latestMinute) => new(At(latestMinute - 35), At(latestMinute - 20), At(latestMinute));

    /// <summary>A sheet that states no panel limit and asks for next to no spread.</summary>
    private static readonly CoatLaws Lenient = CoatLaws.Of(SheetFit.Of(TestShop.Paint() with { Limits = new SheetLimits(null, null, null, null, 0.1, null) }));
}
