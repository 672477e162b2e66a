using System.Globalization;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>The same in words.</summary>
internal static class TallyText
{
    public static string Of(ReadingTally tally) =>
        string.Concat(
            tally.Rejected.Select(r => string.Create(CultureInfo.InvariantCulture, $", {r.Value} {WireName<Disbelief>.Of(r.Key)}"))
                .Prepend(string.Create(CultureInfo.InvariantCulture, $"{tally.Accepted} believed")));
}
