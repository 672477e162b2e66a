using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Pump;

/// <summary>Something that keeps the program itself from its work.</summary>
/// <param name="Kind">What it is: one of the kinds that are told from here.</param>
/// <param name="Why">What was seen of it.</param>
/// <param name="Since">Since when.</param>
internal sealed record Trouble(WarningKind Kind, string Why, DateTimeOffset Since)
{
    public AlarmRule Rule => AlarmRule.Of(Kind);

    /// <summary>What brings it about, with what was seen.</summary>
    public Sentence Cause => $"{new Figure.Unended(Rule.Cause)}: {Why.TrimEnd('.')}.";
}
