using System.Globalization;
using CureWatch.Service.Commands;
using CureWatch.Service.Journal;

namespace CureWatch.Benchmarks.Kills;

/// <summary>What the senders know, held against what the journal holds.</summary>
/// <param name="Audit">The journal.</param>
/// <param name="Ledger">What was sent and acknowledged.</param>
/// <param name="Heard">The warnings that were heard.</param>
/// <param name="ExitCode">Of the last, orderly stop.</param>
/// <param name="BookBehind">How many entries the book is behind the journal after that stop.</param>
/// <param name="IsBookRight">Whether the book says what one written anew says.</param>
internal sealed record Findings(Audit Audit, Ledger Ledger, HeardWarnings Heard, int ExitCode, long BookBehind, bool IsBookRight)
{
    /// <summary>The orderly stop notes the time once more, after the book is closed.</summary>
    private const int MostBehind = 2;

    public IReadOnlyList<string> Lost => [.. Ledger.Acknowledged.Except(Audit.Keys)];

    public IReadOnlyList<string> Twice => [.. Audit.Twice];

    /// <summary>Warnings that were heard, or heard to be over, and of which the journal knows nothing.</summary>
    public IReadOnlyList<string> Unfounded =>
    [
        .. from heard in Heard.Raised
           where !Audit.Facts.OfType<Entry.WarningChanged>().Any(f =>
               f.Number == heard.Key && f.Kind == heard.Value.Kind && !f.IsOver && UtcText.Of(f.At) == heard.Value.RaisedAt)
           select $"warning {heard.Key}, {heard.Value}",
        .. from number in Heard.Over
           where !Audit.Facts.OfType<Entry.WarningChanged>().Any(f => f.Number == number && f.IsOver)
           select $"end of warning {number}",
        .. Heard.Changed.Select(n => $"warning {n} was another one before"),
    ];

    /// <summary>Everything that is not as it should be, a line each.</summary>
    public IEnumerable<string> Faults =>
    [
        .. Lost.Select(l => $"lost: {l}"),
        .. Twice.Select(t => $"twice: {t}"),
        .. Ledger.Refused.Select(r => $"refused: {r}"),
        .. Unfounded.Select(u => $"not in the journal: {u}"),
        .. Audit.Recovery.Facts.Strange.Select(f => $"told, but does not follow: {f}"),
        .. Audit.Recovery.Facts.Untold.Select(f => $"follows, but was never told: {f}"),
        .. Audit.Warnings.SequenceEqual(Audit.UndisturbedWarnings()) ? Array.Empty<string>() : ["the warnings are not those of an undisturbed run"],
        .. IsBookRight ? Array.Empty<string>() : ["the book is not what the journal says"],
        .. BookBehind <= MostBehind ? Array.Empty<string>() : [$"the book is {BookBehind} entries behind"],
        .. ExitCode == 0 ? Array.Empty<string>() : [$"the orderly stop exited {ExitCode}"],
    ];

    /// <summary>The counts in a few lines.</summary>
    public IEnumerable<string> Lines
    {
        get
        {
            string[] acknowledged = [.. Ledger.Acknowledged];
            int warnings = Audit.Facts.OfType<Entry.WarningChanged>().Count(f => !f.IsOver), rulings = Audit.Facts.OfType<Entry.Ruled>().Count();
            yield return Text(
                $"acknowledged: {Count("reading")} readings, {Count("tap")} taps, {Count("job")} jobs, {Count("departure")} departures; of {Ledger.Sent} sent; {Ledger.Again} sent again");
            yield return Text($"lost: {Lost.Count}; applied twice: {Twice.Count} (written again and not believed again: {Audit.WrittenAgain} readings)");
            yield return Text($"refused: {Ledger.Refused.Count}; believed: {Audit.Believed} of {Audit.Keys.Count(k => k.StartsWith("reading", StringComparison.Ordinal))} readings");
            yield return Text(
                $"told: {warnings} warnings, {rulings} rulings, each once; untold {Audit.Recovery.Facts.Untold.Count}, strange {Audit.Recovery.Facts.Strange.Count}");
            yield return Text($"heard over MQTT: {Heard.Raised.Count()} raised, {Heard.Over.Count} over; not in the journal: {Unfounded.Count}");
            yield return Text($"warnings as undisturbed: {Audit.Warnings.SequenceEqual(Audit.UndisturbedWarnings())}; book as rebuilt: {IsBookRight}, {BookBehind} behind");

            int Count(string kind) => acknowledged.Count(a => a.StartsWith(kind, StringComparison.Ordinal));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
