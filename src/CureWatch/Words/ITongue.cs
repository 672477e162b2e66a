using System.Globalization;

namespace CureWatch.Words;

/// <summary>How a <see cref="Sentence"/> is said: a language, and the degrees somebody reckons in.</summary>
public interface ITongue
{
    /// <summary>How numbers are written.</summary>
    NumberFormatInfo Numbers { get; }

    /// <summary>How days and months are called.</summary>
    DateTimeFormatInfo Calendar { get; }

    /// <summary>Whether temperatures are said in °F.</summary>
    bool IsFahrenheit { get; }

    /// <summary>What stands for an English phrase.</summary>
    /// <param name="english">A template with its figures as <c>{0}</c>, <c>{1}</c>, …; or a format of the clock, such as <c>ddd d MMM HH:mm</c>.</param>
    /// <returns>The phrase with the same figures, in any order; the English one where there is no other.</returns>
    string Phrase(string english);
}
