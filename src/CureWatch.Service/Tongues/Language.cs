using System.Globalization;

namespace CureWatch.Service.Tongues;

/// <summary>A language people are spoken to in.</summary>
/// <remarks>The program runs without the system's tables of languages, which not every small computer has, so what they would say stands here.</remarks>
internal sealed class Language
{
    private readonly Lazy<PhraseBook> _book;

    private Language(string code, string name, NumberFormatInfo numbers, DateTimeFormatInfo calendar, Func<PhraseBook> book)
    {
        (Code, Name, Numbers, Calendar) = (code, name, numbers, calendar);
        _book = new Lazy<PhraseBook>(book);
    }

    public static Language English { get; } = new("en", "English", NumberFormatInfo.InvariantInfo, DateTimeFormatInfo.InvariantInfo, () => PhraseBook.Empty) { JoinsWords = false };

    public static Language German { get; } = new("de", "Deutsch", GermanNumbers(), GermanCalendar(), () => PhraseBook.Of("de")) { JoinsWords = true };

    public static IReadOnlyList<Language> All { get; } = [English, German];

    /// <summary>Its code (BCP 47).</summary>
    public string Code { get; }

    /// <summary>What it calls itself.</summary>
    public string Name { get; }

    /// <summary>Whether it writes several words as one.</summary>
    public required bool JoinsWords { get; init; }

    public NumberFormatInfo Numbers { get; }

    public DateTimeFormatInfo Calendar { get; }

    public PhraseBook Book => _book.Value;

    /// <returns>The language of a code, whatever its region; null where the program does not speak it.</returns>
    public static Language? Find(string? code) => All.FirstOrDefault(l => l.Code.Equals(code?.Split('-')[0], StringComparison.OrdinalIgnoreCase));

    private static NumberFormatInfo GermanNumbers()
    {
        var numbers = (NumberFormatInfo)NumberFormatInfo.InvariantInfo.Clone();
        (numbers.NumberDecimalSeparator, numbers.NumberGroupSeparator) = (",", ".");
        return NumberFormatInfo.ReadOnly(numbers);
    }

    private static DateTimeFormatInfo GermanCalendar()
    {
        var calendar = (DateTimeFormatInfo)DateTimeFormatInfo.InvariantInfo.Clone();
        calendar.DayNames = ["Sonntag", "Montag", "Dienstag", "Mittwoch", "Donnerstag", "Freitag", "Samstag"];
        calendar.AbbreviatedDayNames = ["So", "Mo", "Di", "Mi", "Do", "Fr", "Sa"];
        calendar.MonthNames = calendar.MonthGenitiveNames =
            ["Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember", ""];
        calendar.AbbreviatedMonthNames = calendar.AbbreviatedMonthGenitiveNames =
            ["Jan.", "Feb.", "März", "Apr.", "Mai", "Juni", "Juli", "Aug.", "Sept.", "Okt.", "Nov.", "Dez.", ""];
        return DateTimeFormatInfo.ReadOnly(calendar);
    }
}
