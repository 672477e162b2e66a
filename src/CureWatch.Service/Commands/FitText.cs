using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Units;

namespace CureWatch.Service.Commands;

/// <summary>A fitted sheet in words and small tables, for the one who owns the shop.</summary>
internal static class FitText
{
    private const double HoursShownAsMinutes = 1;
    private const double HoursShownAsDays = 72;

    public static string Of(SheetFit fit)
    {
        ReferenceClimate reference = fit.Sheet.Reference;
        return string.Join(
            Environment.NewLine,
            [
                $"{fit.Sheet.Product}, revision {fit.Sheet.Revision} ({fit.Sheet.Source})",
                $"Times and comparisons are for {reference.Temperature} and {reference.Humidity}; ± is one standard error.",
                .. fit.Stages.SelectMany(LinesOf),
            ]);
    }

    private static IEnumerable<string> LinesOf(StageFit stage)
    {
        string end = stage.ToReferenceHours is { } to ? $" to {InWords(to)}" : "";
        double sharePct = 100 * stage.Covariance.StdErrorLnReferenceHours;
        return
        [
            "",
            $"{WireName<Stage>.Of(stage.Stage)}: {InWords(stage.ReferenceHours)}{end}, ± {sharePct:0} %",
            .. LawOf(stage),
            "  climate                   sheet       fit difference",
            .. stage.Rows.Select(row => LineOf(row, stage.To is null ? "" : "from")),
            .. stage.To?.Rows.Select(row => LineOf(row, "to")) ?? [],
            .. FitBasis.Of(stage).Words.Select(sentence => $"  {sentence}"),
        ];
    }

    private static IEnumerable<string> LawOf(StageFit stage)
    {
        RateLaw law = stage.Law;
        Celsius temperature = law.Reference.Temperature;
        RelativeHumidity humidity = law.Reference.Humidity;
        double warmer = RateAt(law, new Celsius(temperature.Degrees + 10), humidity);
        double drier = RateAt(law, temperature, new RelativeHumidity(humidity.Percent / 2));
        string exponent = law.ByDeficit
            ? "waterborne: driven by what the air can still take up"
            : $"exponent {law.HumidityExponent:0.00} ± {stage.Covariance.StdErrorHumidityExponent:0.00}";
        yield return $"  10 K warmer: {warmer:0.00} times as fast (activation energy {EnergyOf(stage)})";
        yield return $"  half the humidity: {drier:0.00} times as fast ({exponent})";
    }

    private static double RateAt(RateLaw law, Celsius temperature, RelativeHumidity humidity)
    {
        double kelvins = temperature.Kelvins;
        return law.Likely(law.Terms(kelvins, humidity.Fraction * SaturationPressure.OverWaterPa(kelvins)));
    }

    private static string LineOf(FittedRow row, string milestone)
    {
        string climate = $"{row.Row.Temperature} {row.Row.Humidity} {milestone}";
        return $"  {climate,-20}{InWords(row.SheetHours),10}{InWords(row.FittedHours),10}{row.ResidualPct,9:+0;-0;0} %";
    }

    private static string EnergyOf(StageFit stage) =>
        $"{stage.Law.ActivationEnergyJmol / FitJson.JoulesPerKilojoule:0.0} ± {stage.Covariance.StdErrorActivationEnergyKJmol:0.0} kJ/mol";

    private static string InWords(double hours) => hours switch
    {
        < HoursShownAsMinutes => $"{60 * hours:0.0} min",
        < HoursShownAsDays => $"{hours:0.0} h",
        _ => $"{hours / 24:0.0} d",
    };
}
