using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>The ways a bay may go from an instant on: air temperature, moisture and panels together, each as likely as its weight.</summary>
/// <remarks>
/// What is likely is forecast, and each scenario adds how a forecast missed before: those of the same time of day, of all three at once and over
/// all hours ahead, so that what goes together in this bay goes together here. Beside them stand scenarios drawn from how wide the bands are, which count like
/// some nights: they speak alone while no night is known. A front may come into any night, and a heated bay is held where it was held before. Source (choice): the weights.
/// </remarks>
internal sealed class Scenarios
{
    /// <summary>How far ahead it reaches [h].</summary>
    public const int Reach = 36;

    /// <summary>Scenarios drawn from the bands count like so many nights.</summary>
    private const double DrawnNights = 3;

    private const double HalfWidth90OfDeviation = 1.645;

    /// <summary>A panel nobody measures is seen by walls and roof that are colder at night [K]. Source (choice), common practice without a source.</summary>
    private const double UnmeasuredPanelK = -0.8;
    private const double UnmeasuredPanelDoubtK = 0.5;

    /// <summary>A car that came in cold has taken the bay's warmth after some hours: it has this time constant [h]. Source (choice): about what the lightest body behind a skin takes, as <see cref="Panels.TwoNode"/> has them.</summary>
    private const double ColdCarHours = 1.5;
    private const double UsualPanelK = 1.5;

    private const double LeakHours = 8;
    private const double SlowsAtShare = 0.88, SlowedShare = 0.5;
    private const double OutdoorTrendHours = 1, MostOutdoorChange = 0.2;
    private readonly AirNow _now;

    private Scenarios(AirNow now, bool isForecast, IReadOnlyList<Scenario> all) => (_now, IsForecast, All) = (now, isForecast, all);

    /// <summary>The hours ahead at which they are known: each half an hour to the second, each hour to the eighteenth, then every other.</summary>
    public static double[] Knots { get; } = [0, 0.5, 1, 1.5, 2, .. Enumerable.Range(3, 16).Select(h => (double)h), .. Enumerable.Range(10, (Reach / 2) - 9).Select(h => 2.0 * h)];

    /// <summary>Whether the bay's own days tell; else what bays usually do.</summary>
    public bool IsForecast { get; }

    public IReadOnlyList<Scenario> All { get; }

    public AirNow Now => _now;

    /// <summary>Looks ahead.</summary>
    /// <param name="known">What is known of the bay.</param>
    /// <param name="now">The bay now.</param>
    /// <param name="within">Up to how far ahead [h].</param>
    public static Scenarios Of(ClimateForecaster known, AirNow now, double within)
    {
        int knots = Knots.Count(h => h <= within);
        double hour = (now.At.ToUnixTimeMilliseconds() / 3.6e6) - 0.5; // the mean of an hour stands at its middle
        double lnPa = Math.Log(now.VapourPressurePa);
        bool isForecast = known.Kelvins.Course is not null;
        SeriesForecast kelvins = known.Kelvins.From(hour, now.AirKelvins), ln = known.LnVapourPressure.From(hour, lnPa);
        double? panelAboveK = now.ColdestPanelKelvins - now.AirKelvins;
        SeriesForecast? panel = panelAboveK is { } above && known.Panel.Course is not null && Math.Abs(above) < 6 ? known.Panel.From(hour, above) : null;
        var usual = new UsualNight(now, known, hour);
        var likely = new (double Kelvins, double LnPa, double PanelK)[knots];
        var doubt = new (double Kelvins, double LnPa, double PanelK)[knots];
        for (int k = 0; k < knots; k++)
        {
            double h = Knots[k];
            (double panelK, double panelDoubtK) = panel is null
                ? Panel(panelAboveK, h)
                : (panel.LikelyAt(h), panel.HalfWidthsAt(h).Of90 / HalfWidth90OfDeviation);
            if (isForecast)
            {
                likely[k] = (kelvins.LikelyAt(h), ln.LikelyAt(h), panelK);
                doubt[k] = (kelvins.HalfWidthsAt(h).Of90 / HalfWidth90OfDeviation, ln.HalfWidthsAt(h).Of90 / HalfWidth90OfDeviation, panelDoubtK);
            }
            else
            {
                (double usualK, double usualLn) = usual.At(h);
                (double doubtK, double doubtLn) = usual.DoubtAt(h);
                (likely[k], doubt[k]) = ((usualK, usualLn, panelK), (doubtK, doubtLn, panelDoubtK));
            }
        }

        double outdoorLn = OutdoorChange(known, now);
        for (int k = 0; k < knots && isForecast; k++)
        {
            likely[k].LnPa += outdoorLn * (1 - Math.Exp(-Knots[k] / LeakHours));
        }

        var trend = new NightTrend(now);
        (double changeK, double changeLn) = isForecast
            ? (kelvins.ChangeOfDeparture, ln.ChangeOfDeparture)
            : (usual.ChangeOfKelvins, usual.ChangeOfLn);
        for (int k = 0; k < knots; k++)
        {
            likely[k].Kelvins += trend.GoesOnKelvins(changeK, Knots[k]);
            likely[k].LnPa = RisenTo(likely[k].LnPa, trend.GoesOnLn(changeLn, Knots[k]), likely[k].Kelvins);
            double calm = isForecast ? trend.CalmAt(Knots[k]) : 1;
            doubt[k] = (doubt[k].Kelvins * calm, doubt[k].LnPa * calm, doubt[k].PanelK * calm);
        }

        var all = new List<Scenario>();
        var floor = HeatedFloor.Of(known, now);
        foreach ((double K, double Ln, double Panel) z in Draws.All)
        {
            all.Add(Build(DrawnNights / Draws.All.Length, now, floor, knots, k => (
                likely[k].Kelvins + (z.K * doubt[k].Kelvins), likely[k].LnPa + (z.Ln * doubt[k].LnPa), likely[k].PanelK + (z.Panel * doubt[k].PanelK))));
        }

        if (isForecast)
        {
            all.AddRange(new PastMisses(known, panel is not null, hour).All().Select(miss => Build(miss.Weight, now, floor, knots, k =>
            {
                (double missK, double missLn, double missPanelK) = miss.At(Knots[k]);
                double panelK = panel is null ? likely[k].PanelK : likely[k].PanelK + missPanelK;
                return (likely[k].Kelvins + missK, likely[k].LnPa + missLn, panelK);
            })));
        }

        double oneFront = Front.Chance / (1 - Front.Chance) * all.Sum(s => s.Weight) / Front.All.Length;
        foreach (Front front in Front.All)
        {
            all.Add(Build(oneFront, now, floor, knots, k =>
            {
                (double frontK, double frontLn) = front.At(Knots[k], now);
                return (likely[k].Kelvins + frontK, likely[k].LnPa + frontLn, likely[k].PanelK);
            }));
        }

        return new Scenarios(now, isForecast, all);
    }

    /// <summary>The least something likely comes down to, and when: the median of the scenarios of each.</summary>
    /// <param name="within">Up to how far ahead is looked [h].</param>
    /// <param name="of">What.</param>
    /// <param name="begins">From how far ahead on [h].</param>
    public (double Value, double Hours) LeastLikely(double within, Func<ScenarioPoint, double> of, double begins = 0)
    {
        var least = new List<(double Value, double Hours, double Weight)>(All.Count);
        foreach (Scenario scenario in All)
        {
            (double value, double hours) = (double.PositiveInfinity, 0);
            int first = FirstKnot(begins);
            for (int k = first; k < scenario.Points.Length && (k == first || Knots[k] <= within); k++)
            {
                (value, hours) = of(scenario.Points[k]) is var here && here < value ? (here, Knots[k]) : (value, hours);
            }

            least.Add((value, hours, scenario.Weight));
        }

        return (Weighed.Median(least.Select(l => (l.Value, l.Weight))), Weighed.Median(least.Select(l => (l.Hours, l.Weight))));
    }

    /// <summary>The first knot of a stretch, which counts however short it is.</summary>
    /// <param name="begins">How far ahead it begins [h].</param>
    public static int FirstKnot(double begins) => Math.Max(0, Array.FindIndex(Knots, h => h >= begins));

    /// <summary>How far ahead the knot is that ends a stretch [h]: what begins between two of them shows at the later one.</summary>
    /// <param name="hours">How far ahead it ends [h].</param>
    public static double KnotFrom(double hours) => Array.Find(Knots, h => h >= hours) is > 0 and var knot ? knot : hours;

    /// <summary>The same with something done about it.</summary>
    public Scenarios Under(ClimateHeld held) => new(_now, IsForecast, [.. All.Select(s => s.Under(held, _now))]);

    /// <summary>Water that dries off a floor moistens the air ever more slowly, the nearer it is to saturation: beyond some humidity a rise counts by a share.</summary>
    private static double RisenTo(double ln, double rises, double kelvins)
    {
        double slowsAt = SaturationPressure.LnOverWater(kelvins) + Math.Log(SlowsAtShare);
        double risen = ln + rises;
        return rises <= 0 || risen <= slowsAt ? risen : Math.Max(ln, slowsAt) + (SlowedShare * (risen - Math.Max(ln, slowsAt)));
    }

    /// <summary>How much moister it became outdoors than the bay has taken in yet, by what leaks in [1].</summary>
    private static double OutdoorChange(ClimateForecaster known, AirNow now)
    {
        if (now.Outdoors is not { } outdoors || known.Outdoors.Length < 12)
        {
            return 0;
        }

        double taken = known.Outdoors[0].Value;
        foreach (HourValue hour in known.Outdoors)
        {
            taken += (hour.Value - taken) / LeakHours;
        }

        double ln = Math.Log(outdoors.VapourPressurePa);
        double rises = Math.Clamp(ln - known.Outdoors[^1].Value, -MostOutdoorChange, MostOutdoorChange);
        return ln + (OutdoorTrendHours * rises) - taken;
    }

    private static (double LikelyK, double DoubtK) Panel(double? aboveK, double hours)
    {
        if (aboveK is not { } above)
        {
            return (UnmeasuredPanelK, UnmeasuredPanelDoubtK);
        }

        double usual = Math.Clamp(above, -UsualPanelK, UsualPanelK / 3);
        double left = Math.Exp(-hours / ColdCarHours);
        return (usual + ((above - usual) * left), 0.5 * (1 - left));
    }

    private static Scenario Build(double weight, AirNow now, HeatedFloor floor, int knots, Func<int, (double Kelvins, double LnPa, double PanelK)> at)
    {
        var points = new ScenarioPoint[knots];
        for (int k = 0; k < points.Length; k++)
        {
            (double kelvins, double ln, double panelK) = at(k);
            kelvins = floor.Holds(kelvins);
            double pascals = Math.Exp(Math.Min(ln, SaturationPressure.LnOverWater(kelvins)));
            points[k] = new ScenarioPoint(kelvins, pascals, kelvins + panelK);
        }

        Scenario.Follow(points, now);
        return new Scenario(weight, points);
    }
}
