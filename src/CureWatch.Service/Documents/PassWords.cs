using CureWatch.Bays;

namespace CureWatch.Service.Documents;

/// <summary>Says the first pass of a car as one would across the bay.</summary>
internal static class PassWords
{
    public static string Of(PassReport report)
    {
        string who = report.Pace.People == 1 ? "One person" : "Two people, one levelling behind the other";
        if (report.Passes.IsEmpty)
        {
            return report.Surfaces.IsEmpty ? "Nothing is left to go on that can be timed." : $"{who}: nothing has to be levelled.";
        }

        if (!report.Passes[0][0].IsTimed)
        {
            return $"{who}: {report.Passes[0][0].Surface} in smaller sections, judge by eye.";
        }

        string first = string.Join(", ", report.Passes[0].GroupBy(s => s.Surface).Select(s => s.Count() == 1 ? s.Key : $"{s.Count()} of {s.Key}"));
        string then = report.Pace.People == 1 ? "then turn back and level" : report.Passes.Length == 1 ? "without a stop" : "then wait for the second to catch up";
        return $"{who}: {report.Passes[0].Length} section{(report.Passes[0].Length == 1 ? "" : "s")} in the first pass ({first}), {then}; "
            + $"{report.Passes.Length} pass{(report.Passes.Length == 1 ? "" : "es")} in all.";
    }
}
