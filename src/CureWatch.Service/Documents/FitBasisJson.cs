using System.Text.Json;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What of a fitted stage is the sheet's, as JSON.</summary>
internal static class FitBasisJson
{
    /// <summary>Writes the keys into an object that is open.</summary>
    public static void WriteKeys(Utf8JsonWriter json, FitBasis basis)
    {
        json.WriteString("temperature", WireName<Basis>.Of(basis.Temperature));
        json.WriteString("humidity", WireName<Basis>.Of(basis.Humidity));
        json.WriteTexts("words", basis.Words);
    }
}
