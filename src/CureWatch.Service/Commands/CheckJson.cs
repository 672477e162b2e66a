using System.Text.Json;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The faults of a configuration as the JSON object that people script against.</summary>
internal static class CheckJson
{
    public static void Write(Utf8JsonWriter json, string directory, ConfigurationFolder folder, Faults faults)
    {
        json.WriteStartObject();
        json.WriteString("config", directory);
        json.WriteTexts("files", folder.Files);
        json.WriteArray("faults", faults.All, fault =>
        {
            json.WriteString("file", fault.File);
            json.WriteString("place", fault.Place);
            json.WriteString("seen", fault.Seen);
            json.WriteString("allowed", fault.Allowed);
        });
        json.WriteEndObject();
    }
}
