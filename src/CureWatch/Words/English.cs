using System.Globalization;

namespace CureWatch.Words;

/// <summary>English and °C: what files, scripts and the command line are told, whoever asks.</summary>
public sealed class English : ITongue
{
    private English()
    {
    }

    /// <summary>The one there is.</summary>
    public static English Plain { get; } = new();

    /// <inheritdoc/>
    public NumberFormatInfo Numbers => NumberFormatInfo.InvariantInfo;

    /// <inheritdoc/>
    public DateTimeFormatInfo Calendar => DateTimeFormatInfo.InvariantInfo;

    /// <inheritdoc/>
    public bool IsFahrenheit => false;

    /// <inheritdoc/>
    public string Phrase(string english) => english;
}
