using CureWatch.Reports;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>Says the first pass of a car as one would across the bay.</summary>
internal static class PassWords
{
    public static Sentence Of(PassReport report)
    {
        Sentence who = report.Pace.People == 1 ? (Sentence)$"One person" : $"Two people, one levelling behind the other";
        if (report.Passes.IsEmpty)
        {
            return report.Surfaces.IsEmpty ? (Sentence)$"Nothing is left to go on that can be timed." : $"{who}: nothing has to be levelled.";
        }

        if (!report.Passes[0][0].IsTimed)
        {
            return $"{who}: {report.Passes[0][0].Surface} in smaller sections, judge by eye.";
        }

        Sentence first = Sentence.Join(", ", report.Passes[0].GroupBy(s => s.Surface).Select(s => s.Count() == 1 ? Sentence.Named(s.Key) : $"{s.Count()} of {s.Key}"));
        Sentence then = report.Pace.People == 1 ? (Sentence)$"then turn back and level"
            : report.Passes.Length == 1 ? (Sentence)$"without a stop" : $"then wait for the second to catch up";
        Sentence sections = report.Passes[0].Length == 1 ? (Sentence)$"1 section in the first pass" : $"{report.Passes[0].Length} sections in the first pass";
        Sentence passes = report.Passes.Length == 1 ? (Sentence)$"1 pass in all" : $"{report.Passes.Length} passes in all";
        return $"{who}: {sections} ({first}), {then}; {passes}.";
    }
}
