using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.Tests.Nights;

namespace CureWatch.Tests.Stills;

/// <summary>What stands still, of the probe air-1 or the probe panel-1.</summary>
internal enum Frozen
{
    Nothing,
    Air,
    AirTemperature,
    AirHumidity,
    Panel,
}

/// <summary>Two days in a bay, told by probes of one make, one of them frozen from an hour on; and what the shop makes of it.</summary>
/// <param name="Bay">What keeps the climate.</param>
/// <param name="StepK">Resolution of temperatures [K].</param>
/// <param name="StepPct">Resolution of humidities [% RH].</param>
/// <param name="Every">How often the probes report.</param>
/// <param name="IsDeadband">Whether they tell what they told before until it has moved by two steps, 0.2 K and 1 % RH at least.</param>
/// <param name="HasTwin">Whether a second air probe hangs beside the first.</param>
/// <param name="HasPanel">Whether a panel probe is there.</param>
/// <param name="What">What is frozen.</param>
/// <param name="FromHour">From when on.</param>
/// <param name="ForHours">For how long.</param>
/// <param name="Seed">Of the bay and its probes.</param>
internal sealed record StillTrial(
    BayKind Bay, double StepK, double StepPct, TimeSpan Every, bool IsDeadband, bool HasTwin, bool HasPanel, Frozen What, double FromHour, double ForHours, int Seed)
{
    private static readonly (double K, double Pct)[] Steps = [(0.01, 0.01), (0.1, 0.1), (0.1, 1), (0.5, 1), (1, 1)];
    private static readonly double[] Periods = [5, 30, 60, 300, 600, 900];

    public static StillTrial Draw(int seed, bool isSound)
    {
        var chance = new Chance(seed);
        var bay = (BayKind)chance.Below(6);
        (double k, double pct) = Steps[chance.Below(5)];
        double every = Periods[chance.Below(6)];
        bool isDeadband = chance.Below(4) == 0, hasTwin = chance.Below(2) == 0, hasPanel = chance.Below(3) > 0;
        var what = isSound ? Frozen.Nothing : (Frozen)(1 + chance.Below(hasPanel ? 4 : 3));
        return new(bay, k, pct, TimeSpan.FromSeconds(every), isDeadband, hasTwin, hasPanel, what, chance.Between(14, 36), chance.Between(2, 12), seed);
    }

    /// <summary>What was told of the probes, and when.</summary>
    public StillOutcome Live()
    {
        var chance = new Chance(~Seed);
        var truth = new LivedBay(Bay, Seed);
        double seconds = Every.TotalSeconds, noiseK = chance.Between(0.01, 0.04), noisePct = chance.Between(0.03, 0.2);
        double bandK = IsDeadband ? Math.Max(0.2, 2 * StepK) : 0, bandPct = IsDeadband ? Math.Max(1, 2 * StepPct) : 0;
        string[] airs = HasTwin ? ["air-1", "air-2"] : ["air-1"];
        CoarseProbe[] celsius = [.. airs.Select(_ => new CoarseProbe(StepK, noiseK, 0.1, chance.Between(30, 300), bandK, chance))];
        CoarseProbe[] percent = [.. airs.Select(_ => new CoarseProbe(StepPct, noisePct, 0.6, chance.Between(30, 300), bandPct, chance))];
        var panel = new CoarseProbe(StepK, noiseK, 0.05, 20, bandK, chance);
        double[] offK = [.. airs.Select(_ => chance.Between(-0.2, 0.2))], offPct = [.. airs.Select(_ => chance.Between(-1, 1))];
        Probe[] mounted = [.. airs.Select(a => TestShop.Air(a) with { Every = Every }), .. HasPanel ? [TestShop.Panel("panel-1") with { Every = Every }] : Array.Empty<Probe>()];
        var plan = new BayPlan("bay-1", 1013.25, "bay-1", [], [.. mounted.Select(p => new ProbeMount(p, null, Place.Outside))]);
        Shop shop = Shop.Opening(new ShopPlan("test-shop", new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty), TimeSpan.Zero, [plan]), [], TestShop.Start);
        var outcome = new StillOutcome(this, truth);
        (double C, double Pct, double PanelC) held = default;
        for (double at = 0; at < LivedBay.Hours * 3600; at += seconds)
        {
            double hour = at / 3600;
            (double c, double pct, double panelC) = truth.At(hour);
            bool isDay = LivedBay.IsDay(hour);
            bool isFrozen = hour >= FromHour && hour < FromHour + ForHours;
            for (int i = 0; i < airs.Length; i++)
            {
                double saidC = celsius[i].Tell(c + offK[i], seconds, isDay), saidPct = Math.Clamp(percent[i].Tell(pct + offPct[i], seconds, isDay), StepPct, 100);
                if (i == 0)
                {
                    held.C = isFrozen && What is (Frozen.Air or Frozen.AirTemperature) ? held.C : saidC;
                    held.Pct = isFrozen && What is (Frozen.Air or Frozen.AirHumidity) ? held.Pct : saidPct;
                    (saidC, saidPct) = (held.C, held.Pct);
                }

                Take(new RawReading("bay-1", airs[i], TestShop.At(hour), TestShop.At(hour), saidC, saidPct, null));
            }

            if (HasPanel)
            {
                double said = panel.Tell(panelC, seconds, isDay);
                held.PanelC = isFrozen && What == Frozen.Panel ? held.PanelC : said;
                Take(new RawReading("bay-1", "panel-1", TestShop.At(hour), TestShop.At(hour), null, null, held.PanelC));
            }

            void Take(RawReading raw)
            {
                (shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(shop, new Message.ReadingCame(raw));
                outcome.See(hour, happened);
            }
        }

        outcome.End(shop);
        return outcome;
    }
}
