using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Tests.Nights;

/// <summary>Lets the program watch a simulated night by probes that are off within their limits.</summary>
internal sealed class NightRun
{
    /// <summary>A Monday.</summary>
    private static readonly DateTimeOffset Midnight = new(2026, 1, 5, 0, 0, 0, TimeSpan.Zero);

    /// <summary>How long the coat has to stay dry at 20 °C and 50 % [h].</summary>
    public const double KeepDryHours = 12;

    private const int MinutesBetweenReadings = 5;
    private const int MinutesBetweenOldReadings = 20;

    private readonly Night _night;
    private readonly Chance _chance;
    private readonly double _airOffK;
    private readonly double _humidityOffPct;
    private readonly double _panelOffK;

    public NightRun(Night night)
    {
        (_night, _chance) = (night, new Chance(night.Seed + 1_000_000));
        (_airOffK, _humidityOffPct, _panelOffK) = (_chance.Between(-0.3, 0.3), _chance.Between(-2, 2), _chance.Between(-0.5, 0.5));
        Shop = Shop.Opening(Plan(), [Sheet()], At(night.WatchedFrom));
    }

    public Shop Shop { get; private set; }

    public static DateTimeOffset At(double minute) => Midnight + TimeSpan.FromMinutes(minute);

    public static int MinuteOf(DateTimeOffset at) => (int)(at - Midnight).TotalMinutes;

    /// <summary>Lives until a minute; after each reading of the night somebody may look.</summary>
    public NightRun Until(int to, Action<int, Shop>? look = null)
    {
        for (int minute = _night.WatchedFrom; minute < to; minute++)
        {
            int every = minute < _night.CoatedAt - (12 * 60) ? MinutesBetweenOldReadings : MinutesBetweenReadings;
            if (minute % every == 0)
            {
                Read(minute);
                look?.Invoke(minute, Shop);
            }

            if (minute == _night.CoatedAt)
            {
                Coat(minute);
            }
        }

        return this;
    }

    private void Coat(int minute)
    {
        Surface[] surfaces =
        [
            new("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1),
            .. _night.HasWheels ? [new Surface("wheels", Material.Casting, null, Place.Outside, "paint", 1, 1, 1)] : Array.Empty<Surface>(),
        ];
        Take(new Message.JobStarted(new Job("car", "bay-1", null, null, [.. surfaces]), At(minute)));
        Take(new Message.Tapped("car", Tap("on", minute, Did.Applied)));
        Take(new Message.Tapped("car", Tap("level", minute + 3, Did.Levelled)));
    }

    private static Tap Tap(string id, int minute, Did did) => new(id, At(minute), At(minute), null, did, null, null, null, null, null, null, null, null, null, null);

    private void Read(int minute)
    {
        Truth truth = _night.Minutes[minute];
        double humidityPct = Math.Clamp(truth.HumidityPct + _humidityOffPct + (0.2 * _chance.Normal()), 1, 100);
        Take(Reading("air", minute, truth.AirC + _airOffK + (0.04 * _chance.Normal()), humidityPct, null));
        if (_night.HasPanelProbe)
        {
            Take(Reading("panel", minute, null, null, truth.SteelC + _panelOffK + (0.05 * _chance.Normal())));
        }

        if (_night.HasOutdoorProbe)
        {
            Take(Reading("outdoor", minute, truth.OutC, Math.Clamp(100 * truth.OutPa / Water.OverWaterPa(truth.OutC), 1, 100), null));
        }
    }

    private static Message.ReadingCame Reading(string probe, int minute, double? airC, double? humidityPct, double? panelC) =>
        new Message.ReadingCame(new RawReading("bay-1", probe, At(minute), At(minute), Round(airC), Round(humidityPct), Round(panelC)));

    private static double? Round(double? value) => value is { } number ? Math.Round(number, 2) : null;

    private void Take(Message message) => Shop = ShopFold.Take(Shop, message).Shop;

    private ShopPlan Plan()
    {
        var week = Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18))));
        ProbeMount[] probes =
        [
            Mount("air", Measures.Air),
            .. _night.HasPanelProbe ? [Mount("panel", Measures.Panel) with { Material = Material.Steel }] : Array.Empty<ProbeMount>(),
            .. _night.HasOutdoorProbe ? [Mount("outdoor", Measures.Outdoor)] : Array.Empty<ProbeMount>(),
        ];
        ImmutableArray<Equipment> equipment = _night.IsHeated ? [Equipment.FixedHeating, Equipment.Dehumidifier] : [Equipment.Dehumidifier];
        return new ShopPlan(
            "hall", new OpeningHours(TimeZoneInfo.Utc, week), TimeSpan.FromMinutes(75), [new BayPlan("bay-1", 1013.25, "hall", equipment, [.. probes])]);
    }

    private static ProbeMount Mount(string id, Measures measures) =>
        new(new Probe(id, measures, 0, 0, measures == Measures.Panel ? 0.5 : 0.3, 2, TimeSpan.FromMinutes(20)), null, Place.Outside);

    private static ProductSheet Sheet()
    {
        SheetStage Row(Stage stage, Mechanism clock, double from, double to) => new(
            stage, clock, [new SheetRow(new Celsius(20), new RelativeHumidity(50), TimeSpan.FromHours(from), TimeSpan.FromHours(to))]);
        return new ProductSheet(
            "paint", 1, ProductKind.Paint, Carrier.Solvent, "paint", "invented for the simulated nights", ReferenceClimate.Usual,
            new SheetLimits(10, 30, 30, 75, 3, 70),
            [
                Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0),
                Row(Stage.LevelBy, Mechanism.Evaporation, 8 / 60.0, 8 / 60.0),
                Row(Stage.KeepDry, Mechanism.Cure, KeepDryHours, KeepDryHours),
            ],
            [], AfterWetting.Restart, []);
    }
}
