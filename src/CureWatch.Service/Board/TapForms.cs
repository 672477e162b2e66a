using System.Globalization;
using System.Text.Json;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Board;

/// <summary>Reads a form that tells a tap, and says it as the JSON it stands for.</summary>
internal static class TapForms
{
    private static readonly TimeSpan LongestAgo = TimeSpan.FromDays(1);

    /// <summary>
    /// The tap's id: what was pressed, and how many taps there were when the page was made. So a button pressed twice, or a form sent again
    /// by a reload, tells one tap.
    /// </summary>
    public static string IdOf(IFormCollection form) => string.Join(
        '-', new[] { $"b{form["number"]}", form["did"].ToString().Replace(':', '-'), form["surface"].ToString(), form["layer"].ToString(), form["section"].ToString() }
            .Where(part => part.Length > 0));

    /// <returns>When it was done; null where what was sent is no number of minutes.</returns>
    public static DateTimeOffset? At(IFormCollection form, DateTimeOffset now)
    {
        string ago = form["ago"].ToString();
        bool isNumber = int.TryParse(ago, NumberStyles.None, CultureInfo.InvariantCulture, out int minutes);
        return ago.Length == 0 ? now : isNumber && minutes <= LongestAgo.TotalMinutes ? now - TimeSpan.FromMinutes(minutes) : null;
    }

    public static ReadOnlyMemory<byte> Tap(IFormCollection form, string id, DateTimeOffset at) => JsonAnswer.Utf8Of(json =>
    {
        string[] did = form["did"].ToString().Split(':');
        json.WriteStartObject();
        json.WriteString("id", id);
        json.WriteInstant("at", at);
        json.WriteString("did", did[0]);
        if (did.Length > 1)
        {
            json.WriteString(did[0] == "inspected" ? "found" : "how", did[1]);
        }

        StartForms.Given(json, "surface", form["surface"].ToString());
        StartForms.Number(json, "layer", form["layer"].ToString());
        StartForms.Number(json, "section", form["section"].ToString());
        StartForms.Given(json, "promisedAt", form["promisedAt"].ToString());
        Measured(json, form["panelC"].ToString().Trim());
        StartForms.Given(json, "by", form["by"].ToString().Trim());
        json.WriteEndObject();
    });

    /// <summary>Writes a temperature as a number, and anything else as it stands, so that it is refused by name.</summary>
    private static void Measured(Utf8JsonWriter json, string text)
    {
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double celsius) && double.IsFinite(celsius))
        {
            json.WriteNumber("panelC", celsius);
        }
        else
        {
            StartForms.Given(json, "panelC", text);
        }
    }
}
