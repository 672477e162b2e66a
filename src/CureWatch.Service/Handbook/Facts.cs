using System.Text;
using CureWatch.Service.Board;
using CureWatch.Service.Documents;
using CureWatch.Warnings;

namespace CureWatch.Service.Handbook;

/// <summary>What the handbook takes from the program itself, so that neither says what the other does not.</summary>
internal static class Facts
{
    private static readonly (string Place, Func<string> Text)[] Places =
    [
        ("{{every-warning}}", EveryWarning),
        ("{{caution-solvent}}", () => Box(Cautions.SolventVapour)),
        ("{{caution-lamp}}", () => Box(Cautions.Lamp)),
        ("{{caution-heat}}", () => Box(Cautions.HeatAndShutDoors)),
        ("{{caution-airing}}", () => Box(Cautions.Airing)),
    ];

    public static string Filled(string text) => Places.Aggregate(
        text, (filled, place) => filled.Contains(place.Place, StringComparison.Ordinal) ? filled.Replace(place.Place, place.Text(), StringComparison.Ordinal) : filled);

    /// <summary>Every kind of warning by its title on the board, the most urgent first.</summary>
    private static string EveryWarning()
    {
        var text = new StringBuilder();
        foreach (AlarmRule rule in Enum.GetValues<WarningKind>().Select(AlarmRule.Of).OrderBy(r => r.Priority))
        {
            text.Append("## ").AppendLine(BoardWords.Of(rule.Kind)).AppendLine()
                .Append(rule.Cause).Append(" If nobody acts: ").AppendLine(rule.Consequence).AppendLine()
                .Append("**What to do:** ").Append(rule.Action).Append(After(rule)).AppendLine().AppendLine();
        }

        return text.ToString();
    }

    private static string After(AlarmRule rule) => rule.OnDelay > TimeSpan.Zero
        ? $" Told after {ShopClock.Length(rule.OnDelay)}, over {ShopClock.Length(rule.OffDelay)} after the cause is gone."
        : "";

    private static string Box(string caution) => $":::caution\n{caution}\n:::\n";
}
