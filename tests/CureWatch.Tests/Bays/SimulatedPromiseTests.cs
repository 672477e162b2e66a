using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

/// <summary>Promises in bays that share no code with what foresees them. The seeds here are not those that anything was set by.</summary>
public class SimulatedPromiseTests
{
    /// <summary>Twelve days of watching, after which a forecast knows how wrong it is, and then a coat levelled at five in the afternoon.</summary>
    private const double LevelledHour = (24 * 12) + 9;

    // The panel is measured: where it is not, most of what is advised is for one that is colder than these are, and would have made it anyhow.
    [Fact]
    public void Advice_ThatIsApplied_MakesThePromise()
    {
        int asked = 0, made = 0, madeWithout = 0;
        for (int seed = 11_001; seed <= 11_024; seed++)
        {
            (SimulatedBay bay, PromisedCar car) = Begun(seed, [Equipment.FixedHeating], panel: true);
            double promised = Math.Ceiling(4 * ((car.Promise.Outlook.ReadyAt!.Likely!.Value - PromisedCar.Start).TotalHours - 1.5)) / 4;
            car.Tap(bay.Hour, Did.Told, promisedHour: OpenAt(promised));
            if (PromiseAdvice.Of(car.Shop, "job-1") is not { IsNeeded: true } advice || advice.Ways.FirstOrDefault() is not { IsEnough: true } way)
            {
                continue;
            }

            double readyBy = (car.Promise.Outlook.ReadyBy!.Value - PromisedCar.Start).TotalHours;
            asked++;
            made += DryHour(bay, readyBy, way.AirC) <= readyBy ? 1 : 0;
            madeWithout += DryHour(Begun(seed, [], panel: true).Bay, readyBy, null) <= readyBy ? 1 : 0;
        }

        Assert.True(asked >= 12, $"{asked} of 24 asked for heat");
        Assert.True(made >= 0.9 * asked, $"{made} of {asked} made it with what was advised, {madeWithout} without");
        Assert.True(madeWithout <= 0.6 * asked, $"{madeWithout} of {asked} had made it anyhow");
    }

    // Over many cars, as many make it as the chances add up to. Bounds are drawn rather too wide than too narrow, so a chance may be nearer to a half than the
    // truth by a fifth, as no probe measures these panels and what has to be waited for reckons with colder ones, but never surer than the truth beyond what forty cars can tell: a twelfth.
    [Fact]
    public void Chances_AreKept()
    {
        const int Cars = 40;
        double[] leads = [-2.5, -1, 0, 1, 2.5];
        double[] said = new double[leads.Length], kept = new double[leads.Length];
        for (int seed = 12_001; seed <= 12_000 + Cars; seed++)
        {
            (SimulatedBay bay, PromisedCar car) = Begun(seed, [], panel: false);
            double likely = (car.Promise.Outlook.ReadyAt!.Likely!.Value - PromisedCar.Start).TotalHours;
            double dry = DryHour(bay, likely + 40, null);
            for (int i = 0; i < leads.Length; i++)
            {
                said[i] += car.Promise.Outlook.ReadyAt!.By(PromisedCar.At(likely + leads[i])) / Cars;
                kept[i] += dry <= likely + leads[i] ? 1.0 / Cars : 0;
            }
        }

        string told = string.Join("; ", leads.Select((l, i) => $"{l} h: said {said[i]:0.00}, kept {kept[i]:0.00}"));
        Assert.All(leads.Select((_, i) => Math.Abs(said[i] - kept[i])), off => Assert.True(off < 0.2, told));
        Assert.All(leads.Select((_, i) => Math.Abs(said[i] - 0.5) - Math.Abs(kept[i] - 0.5)), surer => Assert.True(surer < 1 / 12.0, told));
    }

    private static double OpenAt(double hour) => (hour % 24) is < 1.25 or > 10 ? (Math.Floor(hour / 24) * 24) + (hour % 24 > 10 ? 24 : 0) + 1.5 : hour;

    private static (SimulatedBay Bay, PromisedCar Car) Begun(int seed, Equipment[] equipment, bool panel)
    {
        var bay = new SimulatedBay(seed);
        var car = new PromisedCar(null, equipment, PromisedCar.Rows(), panel: panel);
        bay.Live(LevelledHour, Tell);
        car.Coated(bay.Hour);
        bay.Level();
        bay.Live(LevelledHour + 0.25, Tell);
        return (bay, car);

        void Tell(double hour, double airC, double pct)
        {
            car.Read(hour, airC, pct);
            if (panel)
            {
                car.ReadPanel(hour, bay.PanelC);
            }
        }
    }

    private static double DryHour(SimulatedBay bay, double untilHour, double? thermostatC)
    {
        bay.ThermostatC = thermostatC;
        bay.Live(untilHour, (_, _, _) => { });
        return bay.DryHour;
    }
}
