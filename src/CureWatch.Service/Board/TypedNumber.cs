using System.Globalization;
using System.Text.Json;

namespace CureWatch.Service.Board;

/// <summary>A number as somebody typed it, with a decimal comma or a point.</summary>
internal static class TypedNumber
{
    /// <summary>Writes it as a number, and anything else as it stands, so that it is refused by name; nothing where nothing was typed.</summary>
    /// <param name="json">Where to.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="typed">What was typed.</param>
    public static void Write(Utf8JsonWriter json, string name, string typed)
    {
        if (double.TryParse(typed.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            StartForms.Given(json, name, typed.Trim());
        }
    }
}
