using System.Text;
using CureWatch.Service.Board;
using CureWatch.Service.Documents;
using CureWatch.Service.Tongues;
using CureWatch.Warnings;

namespace CureWatch.Service.Handbook;

/// <summary>What the handbook takes from the program itself, so that neither says what the other does not.</summary>
internal static class Facts
{
    private static readonly (string Place, Func<Tongue, string> Text)[] Places =
    [
        ("{{every-warning}}", EveryWarning),
        ("{{caution-solvent}}", t => Box(Cautions.SolventVapour, t)),
        ("{{caution-lamp}}", t => Box(Cautions.Lamp, t)),
        ("{{caution-heat}}", t => Box(Cautions.HeatAndShutDoors, t)),
        ("{{caution-airing}}", t => Box(Cautions.Airing, t)),
    ];

    public static string Filled(string text, Tongue tongue) => Places.Aggregate(
        text,
        (filled, place) => filled.Contains(place.Place, StringComparison.Ordinal) ? filled.Replace(place.Place, place.Text(tongue), StringComparison.Ordinal) : filled);

    /// <summary>Every kind of warning by its title on the board, the most urgent first.</summary>
    private static string EveryWarning(Tongue tongue)
    {
        var text = new StringBuilder();
        foreach (AlarmRule rule in Enum.GetValues<WarningKind>().Select(AlarmRule.Of).OrderBy(r => r.Priority))
        {
            text.Append("## ").AppendLine(tongue[BoardWords.Of(rule.Kind)]).AppendLine()
                .Append(tongue[rule.Cause]).Append(' ').Append(tongue["If nobody acts:"]).Append(' ').AppendLine(tongue[rule.Consequence]).AppendLine()
                .Append("**").Append(tongue["What to do:"]).Append("** ").Append(tongue[rule.Action]).Append(After(rule, tongue)).AppendLine().AppendLine();
        }

        return text.ToString();
    }

    private static string After(AlarmRule rule, Tongue tongue) => rule.OnDelay > TimeSpan.Zero
        ? $" {tongue[$"Told after {ShopClock.Length(rule.OnDelay)}, over {ShopClock.Length(rule.OffDelay)} after the cause is gone."]}"
        : "";

    private static string Box(string caution, Tongue tongue) => $":::caution\n{tongue[caution]}\n:::\n";
}
