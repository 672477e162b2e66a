using System.CommandLine;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Units;

namespace CureWatch.Service.Commands;

/// <summary><c>climate</c>: dew point and what follows from it, for one instant.</summary>
internal static class ClimateCommand
{
    private const double PascalsPerHectopascal = 100;

    public static Command Create()
    {
        Option<double> air = InvariantNumber.Required(
            "--air", "air temperature in °C", ClimateRange.ColdestC, ClimateRange.HottestAirC);
        Option<double> humidity = InvariantNumber.Required(
            "--humidity", "relative humidity over liquid water in %", 0, 100, aboveLeast: true);
        Option<double?> panel = InvariantNumber.Optional(
            "--panel", "panel temperature in °C", ClimateRange.ColdestC, ClimateRange.HottestPanelC);
        Option<double?> pressure = InvariantNumber.Optional(
            "--pressure",
            "air pressure in hPa (1013.25 where left out)",
            ClimateRange.LowestPressurePa / PascalsPerHectopascal,
            ClimateRange.HighestPressurePa / PascalsPerHectopascal);
        Option<double?> airLimit = InvariantNumber.Optional(
            "--accuracy-air", $"the air probe's ± limit in K ({ProbeAccuracy.UsualAirK} where left out)", 0, ProbeAccuracy.MostK);
        Option<double?> humidityLimit = InvariantNumber.Optional(
            "--accuracy-humidity", $"its ± limit in % RH ({ProbeAccuracy.UsualHumidityPct} where left out)", 0, ProbeAccuracy.MostHumidityPct);
        Option<double?> panelLimit = InvariantNumber.Optional(
            "--accuracy-panel", $"the panel probe's ± limit in K ({ProbeAccuracy.UsualPanelK} where left out)", 0, ProbeAccuracy.MostK);
        Option<bool> json = JsonOption.Create();

        var command = new Command("climate", "Dew point and its kin for one instant. Exits 1 where the panel is wet.")
        {
            air, humidity, panel, pressure, airLimit, humidityLimit, panelLimit, json,
        };
        command.SetAction(parsed =>
        {
            var climate = new BayClimate(
                new Celsius(parsed.GetValue(air)),
                new RelativeHumidity(parsed.GetValue(humidity)),
                parsed.GetValue(panel) is { } degrees ? new Celsius(degrees) : null,
                parsed.GetValue(pressure) * PascalsPerHectopascal ?? ClimateRange.StandardPressurePa);
            if (climate.HumidityRaised)
            {
                parsed.InvocationConfiguration.Error.WriteLine(
                    $"--humidity: drier than any probe can tell, reckoned with {climate.Humidity}");
            }

            var doubt = SpreadDoubt.Of(
                climate,
                parsed.GetValue(airLimit) ?? ProbeAccuracy.UsualAirK,
                parsed.GetValue(humidityLimit) ?? ProbeAccuracy.UsualHumidityPct,
                parsed.GetValue(panelLimit) ?? ProbeAccuracy.UsualPanelK);
            return Answer(climate, doubt, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
        });
        return command;
    }

    private static int Answer(BayClimate climate, SpreadDoubt? doubt, bool asJson, TextWriter output)
    {
        Verdict? verdict = climate.Judge(SheetLimits.UsualSpreadMinK);
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => ClimateJson.Write(json, climate, verdict, doubt));
        }
        else
        {
            output.WriteLine(ClimateText.Of(climate, verdict, doubt));
        }

        return verdict is Verdict.Wet ? ExitCode.AnswerIsNo : ExitCode.Done;
    }
}
