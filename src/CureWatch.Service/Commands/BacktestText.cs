using System.Globalization;
using CureWatch.Forecasting;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>A backtest in words and a small table.</summary>
internal static class BacktestText
{
    private static readonly int[] Shown = [1, 2, 3, 6, 9, 12, 18, 24, 36, 48, 72];

    public static string Of(string bay, PastAir air, Backtest backtest)
    {
        int longest = backtest.Leads[^1].Hours;
        return string.Join(
            Environment.NewLine,
            [
                Line($"{bay}, probe {air.Probe}: {air.Hours.Length} hours, {backtest.Issued} forecasts; readings: {TallyText.Of(air.Readings)}."),
                "RMSE in K, beside saying that all stays as it is; in 80 % = truths inside the 80 % band.",
                "",
                "             air temperature              dew point",
                "  lead    forecast  as it is  in 80 %   forecast  as it is  in 80 %",
                .. backtest.Leads.Where(l => Shown.Contains(l.Hours) || l.Hours == longest)
                    .Select(l => Line($"{l.Hours,4} h  {Of(l.Temperature)} {Of(l.DewPoint)}")),
                "",
            ]);
    }

    private static string Of(Score? score) =>
        score is null ? $"{"-",10}{"-",10}{"-",9}" : Line($"{score.RmseK,10:0.00}{score.PersistenceRmseK,10:0.00}{100 * score.Coverage80,7:0.0} %");

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}
