using System.Globalization;
using System.Text;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>What a message holds at a place: a number, a number written as text, or an instant.</summary>
/// <remarks>The default is a place that is not there.</remarks>
internal readonly record struct FieldValue
{
    /// <summary>No number and no instant needs more bytes.</summary>
    public const int LongestText = 64;

    /// <summary>As seconds that is the year 5138, as milliseconds 1973: no probe's clock shows either. Source (choice).</summary>
    private const double LeastMilliseconds = 1e11;

    /// <summary>The end of the year 2199, as far as <see cref="Instants"/> goes.</summary>
    private const double MostMilliseconds = 7_258_118_400_000;

    private const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    private readonly Form _form;
    private readonly double _number;
    private readonly DateTimeOffset _instant;

    private FieldValue(Form form, double number, DateTimeOffset instant) => (_form, _number, _instant) = (form, number, instant);

    private enum Form
    {
        Absent,
        Number,
        NumberAsText,
        Instant,
    }

    public bool IsAbsent => _form == Form.Absent;

    public static FieldValue OfNumber(double number) => new(Form.Number, number, default);

    /// <returns>False where the text is neither a finite number as this program writes them nor an instant.</returns>
    public static bool TryOfText(ReadOnlySpan<byte> utf8, out FieldValue value)
    {
        Span<char> text = stackalloc char[LongestText];
        if (double.TryParse(utf8, Plain, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number))
        {
            value = new FieldValue(Form.NumberAsText, number, default);
            return true;
        }

        bool isInstant = Instants.TryParse(text[..Encoding.UTF8.GetChars(utf8, text)], out DateTimeOffset instant);
        value = isInstant ? new FieldValue(Form.Instant, 0, instant) : default;
        return isInstant;
    }

    /// <returns>The number; null where the place holds none.</returns>
    /// <param name="alsoAsText">Whether a number written as text will do.</param>
    public double? Number(bool alsoAsText) => _form == Form.Number || (alsoAsText && _form == Form.NumberAsText) ? _number : null;

    /// <returns>The instant; null where the place holds none.</returns>
    /// <param name="alsoUnix">Whether seconds or milliseconds since 1970 will do, written as a number or as text.</param>
    public DateTimeOffset? Instant(bool alsoUnix) =>
        _form == Form.Instant ? _instant
        : alsoUnix && _form is (Form.Number or Form.NumberAsText) ? OfUnix(_number)
        : null;

    private static DateTimeOffset? OfUnix(double number)
    {
        double milliseconds = Math.Round(number < LeastMilliseconds ? number * 1000 : number);
        return milliseconds is >= 0 and < MostMilliseconds ? DateTimeOffset.FromUnixTimeMilliseconds((long)milliseconds) : null;
    }
}
