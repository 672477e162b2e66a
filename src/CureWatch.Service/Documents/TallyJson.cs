using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>How many readings were believed, and how many were not, by reason.</summary>
internal static class TallyJson
{
    public static void Write(Utf8JsonWriter json, ReadingTally tally)
    {
        json.WriteStartObject("readings");
        json.WriteNumber("accepted", tally.Accepted);
        json.WriteArray("rejected", tally.Rejected, r =>
        {
            json.WriteString("reason", WireName<Disbelief>.Of(r.Key));
            json.WriteNumber("count", r.Value);
        });
        json.WriteEndObject();
    }
}
