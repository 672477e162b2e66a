using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Readings;

/// <summary>What a probe repeats: all it says, or one quantity alone while the other moves.</summary>
/// <param name="Whole">How long it is used to repeat all it says.</param>
/// <param name="Temperature">The same of its temperature, of the air or of the panel.</param>
/// <param name="Humidity">The same of its humidity; null where it tells none.</param>
/// <param name="Begun">When it was first heard.</param>
/// <remarks>
/// A kelvin moves the relative humidity of shut-in air by a sixteenth of itself, three per cent at 50 %: what stays the same to the last digit
/// meanwhile is stuck. Source (law): the slope of the saturation pressure. How far a quantity must have moved to tell is a choice: three of its own
/// steps, so that a coarse probe is not called stuck, 0.3 K or half a per cent of RH at least; humidity speaks against a temperature only from 3 % on,
/// since moisture may come and go by itself. In fog the air itself stays at 100 %, so a humidity that may be saturation is no repetition.
/// </remarks>
internal sealed record Repetition(ProbeHabit Whole, Standing Temperature, Standing? Humidity, DateTimeOffset Begun)
{
    private const double LeastMoveK = 0.3, LeastImpliedPct = 0.5, LeastMovePct = 3, LeastImpliedK = 1;
    private const double LeastStepK = 0.1, LeastStepPct = 0.1;
    private const double MayBeFogPct = 98;

    /// <summary>Where the other quantity moved so many times what tells, nobody has to wait for more: people are told. Source (choice).</summary>
    private const double ToBeSure = 3;

    /// <summary>
    /// How fast a still bay moves at least [K/h], [% RH/h]: a probe that tells in steps may say the same for as long as that takes, and of
    /// none longer than this [h]. Source (choice), by the false alarms in sound bays.
    /// </summary>
    private const double StillKPerHour = 0.1, StillPctPerHour = 0.5, LongestStillHours = 24, Never = 1e6;
    private static readonly TimeSpan AnHour = TimeSpan.FromHours(1);
    private static readonly TimeSpan ADay = TimeSpan.FromHours(24);
    private static readonly TimeSpan LongestPause = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan ShortestRun = TimeSpan.FromMinutes(5), ShortestToBeSure = TimeSpan.FromMinutes(20);

    /// <summary>What lies beyond a bay's own rate between two readings is a jump [K/h], [% RH/h]. Source (choice).</summary>
    private const double RateKPerHour = 4, RatePctPerHour = 12;
    private const double StepsInAStep = 1.5, LeastJumpK = 0.3, LeastJumpPct = 0.6;

    /// <summary>How much longer than usual a temperature stays the same before a humidity that moves speaks against it: it may by itself. Source (choice).</summary>
    private const double RunsToDoubt = 2, RunsToSuspect = 4, RunsToBeUnusual = 5, RunsToBeSure = 12;

    /// <summary>
    /// When a value is suspected by how long it lasts alone [1], [h]: nobody is told, so it may be sooner than what is doubted; a bay moves by the coarsest of steps
    /// within hours. Source (choice).
    /// </summary>
    private const double RunsToBeSuspect = 3, LeastSuspectHours = 1, MostSuspectHours = 4;

    /// <summary>The coarsest steps of a probe, or of what it tells by a dead band: what is further apart are two climates. Source (choice).</summary>
    private const double CoarsestK = 2, CoarsestPct = 5;

    /// <summary>Begins with a first reading.</summary>
    public static Repetition Of(Probe probe, RawReading raw, DateTimeOffset at) => new(
        ProbeHabit.Of(at, All(raw), SilenceOf(probe)),
        Standing.Of(at, raw.AirC ?? raw.PanelC ?? 0, raw.HumidityPct ?? 0),
        (raw.AirC, raw.HumidityPct) is ({ } airC, { } pct) ? Standing.Of(at, pct, airC) : null,
        at);

    /// <summary>Whether a reading repeats all the probe says once too often.</summary>
    public bool IsFrozenAt(RawReading raw) => Whole.IsFrozenAt(raw.MeasuredAt, All(raw), LongestInAStillBay);

    /// <summary>Whether what was heard last did so.</summary>
    public bool IsFrozen => Whole.IsFrozenAt(Whole.HeardAt, Whole.Value, LongestInAStillBay);

    /// <summary>Whether it repeats the humidity alone, or the temperature, while the other moves too far for it: then it is surely stuck.</summary>
    public bool IsHalfStuckAt(RawReading raw) =>
        IsSure(Humidity, raw.HumidityPct, StrainOnHumidity) || (IsSure(Temperature, raw.AirC, StrainOnTemperature) && Temperature.IsLongerThan(RunsToBeSure));

    /// <summary>
    /// Whether all the probe says is the same for far longer than it is used to, or its humidity alone, which is restless; a temperature keeps still in many a bay.
    /// </summary>
    public bool IsLongerThanUsual(Quantity what) => Whole.IsUnusual(LongestInAStillBay)
        || (what == Quantity.Humidity && Humidity is { IsKnown: true } standing && standing.IsLongerThan(RunsToBeUnusual) && standing.Run > AnHour && standing.Run > InAStillBay(what, standing.Since));

    public Standing? Of(Quantity what) => what == Quantity.Temperature ? Temperature : Humidity;

    /// <summary>How far the other quantity moved while one repeated its value, as a share of what tells.</summary>
    public double StrainOn(Quantity what) => what == Quantity.Temperature ? StrainOnTemperature : StrainOnHumidity;

    /// <summary>Whether a quantity has repeated its value long enough to be held against anything else.</summary>
    public bool IsRun(Quantity what, TimeSpan every) =>
        Of(what) is { IsKnown: true } standing && standing.Run >= ShortestRunOf(every) && (what == Quantity.Temperature || standing.Value < MayBeFogPct);

    /// <summary>Whether a quantity has repeated its value long enough to be suspected: its steps are known, and are steps rather than another climate.</summary>
    public bool MayBeSuspect(Quantity what, TimeSpan every) =>
        Of(what) is { HasStep: true } standing && standing.Step <= (what == Quantity.Temperature ? CoarsestK : CoarsestPct) && standing.Run >= ShortestRunOf(every)
            && (what == Quantity.Temperature || standing.Value < MayBeFogPct);

    /// <summary>Whether a quantity has repeated its value for longer than is likely of a sound probe.</summary>
    public bool IsSuspect(Quantity what, TimeSpan every) =>
        MayBeSuspect(what, every) && Of(what) is { } standing && standing.IsLongerThan(RunsToBeSuspect) && standing.Run.TotalHours > Math.Clamp(InAStillBayHours(what), LeastSuspectHours, MostSuspectHours);

    /// <summary>The run that ended with a reading, where it ended in a jump; else null.</summary>
    public StandingRun? Jumped(Quantity what, TimeSpan every, DateTimeOffset at) =>
        Of(what) is { IsKnown: true, IsJumpUnseen: true, Last: { } last } && last.Until == at && last.HeardAt - last.Since is var run
            && run >= ShortestRunOf(every) && run >= InAStillBay(what, last.Since) ? last : null;

    /// <summary>Whether all a reading says is no more than a step or two from what was said before.</summary>
    public bool IsByAStep(DateTimeOffset at) => IsByAStep(Temperature, at) && (Humidity is null || IsByAStep(Humidity, at));

    public Repetition After(Probe probe, RawReading raw, DateTimeOffset at)
    {
        double celsius = raw.AirC ?? raw.PanelC ?? Temperature.Value, pct = raw.HumidityPct ?? Humidity?.Value ?? 0;
        bool isJumpK = IsJump(Temperature, celsius, LeastJumpK, RateKPerHour, at);
        return new Repetition(
            Whole.After(at, All(raw), LongestInAStillBay),
            Temperature.After(at, celsius, pct, SilenceOf(probe), isJumpK, isTold: false, fades: false),
            Humidity?.After(at, pct, celsius, SilenceOf(probe), IsJump(Humidity, pct, LeastJumpPct, RatePctPerHour, at), StrainOnHumidity >= 1, fades: true),
            Begun);
    }

    /// <summary>How long a still bay may leave the probe at all it says: of two quantities the one that moves first tells.</summary>
    private TimeSpan LongestInAStillBay
    {
        get
        {
            TimeSpan temperature = InAStillBay(Quantity.Temperature, Whole.Since);
            return Humidity is not null && InAStillBay(Quantity.Humidity, Whole.Since) is var humidity && humidity < temperature ? humidity : temperature;
        }
    }

    /// <summary>How long a still bay may leave a quantity at one value; where that may be more than an hour, a probe is known only from a day and its night.</summary>
    private TimeSpan InAStillBay(Quantity what, DateTimeOffset since)
    {
        double hours = InAStillBayHours(what);
        return TimeSpan.FromHours(hours > 1.001 && since - Begun < ADay ? Never : Math.Min(LongestStillHours, hours));
    }

    private double InAStillBayHours(Quantity what) => Of(what)!.Step / (what == Quantity.Temperature ? StillKPerHour : StillPctPerHour);

    private double StrainOnHumidity => Humidity is not { IsKnown: true, Value: < MayBeFogPct } standing || !standing.IsLongerThan(RunsToDoubt) || standing.Run < ShortestToBeSure ? 0 : Math.Min(
        standing.OtherMoved / Math.Max(LeastMoveK, Standing.StepsToTell * Math.Max(LeastStepK, Known(Temperature.Step))),
        ImpliedPct(standing) / Math.Max(LeastImpliedPct, Standing.StepsToTell * Math.Max(LeastStepPct, Known(standing.Step))));

    private double StrainOnTemperature
    {
        get
        {
            if (Humidity is null || !Temperature.IsKnown || !Temperature.IsLongerThan(RunsToDoubt))
            {
                return 0;
            }

            double strain = Math.Min(
                Temperature.OtherMoved / Math.Max(LeastMovePct, Standing.StepsToTell * Known(Humidity.Step)),
                ImpliedK / Math.Max(LeastImpliedK, Standing.StepsToTell * Known(Temperature.Step)));
            return strain >= ToBeSure || (Temperature.IsLongerThan(RunsToSuspect) && Temperature.Run > InAStillBay(Quantity.Temperature, Temperature.Since)) ? strain : 0;
        }
    }

    /// <summary>How far a relative humidity moves with the temperature of shut-in air [% RH].</summary>
    private static double ImpliedPct(Standing humidity) => humidity.Value * Slope(humidity.OtherLow) * humidity.OtherMoved;

    private double ImpliedK => Temperature.OtherMoved / Math.Max(1, Temperature.OtherHigh * Slope(Temperature.Value));

    private static double Slope(double celsius) => SaturationPressure.WaterSlope(new Celsius(celsius).Kelvins);

    private static bool IsSure(Standing? standing, double? value, double strain) =>
        strain >= ToBeSure && standing!.Run >= ShortestToBeSure && value == standing.Value;

    private static double Known(double step) => double.IsFinite(step) ? step : 0;

    private static bool IsByAStep(Standing standing, DateTimeOffset at) => standing.Last is not { IsJump: true } last || last.Until != at;

    private static bool IsJump(Standing standing, double value, double least, double ratePerHour, DateTimeOffset at) =>
        Math.Abs(value - standing.Value) > Math.Max(StepsInAStep * Known(standing.Step), least) + (ratePerHour * (at - standing.HeardAt).TotalHours);

    private static TimeSpan ShortestRunOf(TimeSpan every) => every + every + every is var thrice && ShortestRun > thrice ? ShortestRun : thrice;

    /// <summary>A run is broken by a silence, and by no less than half an hour without a word where the probe is slower than it says.</summary>
    private static TimeSpan SilenceOf(Probe probe) => probe.SilentAfter > LongestPause ? probe.SilentAfter : LongestPause;

    private static (double, double, double) All(RawReading raw) => (raw.AirC ?? 0, raw.HumidityPct ?? 0, raw.PanelC ?? 0);
}
