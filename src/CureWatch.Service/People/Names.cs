using System.Globalization;
using CureWatch.Words;

namespace CureWatch.Service.People;

/// <summary>What people and screens may be called.</summary>
internal static class Names
{
    public const int Most = 40;

    /// <returns>What a name lacks; null where it will do.</returns>
    public static Sentence? Lack(string name) => name.Length is > 0 and <= Most && name.Trim() == name && !name.Any(IsUnseen)
        ? null
        : (Sentence)$"a name is 1 to {Most} signs that can be seen";

    private static bool IsUnseen(char sign) => char.GetUnicodeCategory(sign) is UnicodeCategory.Control or UnicodeCategory.Format
        or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.PrivateUse;
}
