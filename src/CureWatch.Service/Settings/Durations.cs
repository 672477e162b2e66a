using System.Globalization;
using System.Text.RegularExpressions;

namespace CureWatch.Service.Settings;

/// <summary>Durations as people write them: <c>[d.]hh:mm:ss</c>, with an optional fraction of a second.</summary>
internal static partial class Durations
{
    public const string Form = "[d.]hh:mm:ss";

    public static TimeSpan? Find(string text) =>
        Pattern().IsMatch(text) ? TimeSpan.ParseExact(text, "c", CultureInfo.InvariantCulture) : null;

    [GeneratedRegex(@"\A([0-9]{1,4}\.)?([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\.[0-9]{1,7})?\z")]
    private static partial Regex Pattern();
}
