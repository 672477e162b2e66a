using System.Globalization;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

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
    /// <summary>The orderly stop notes refusals and the time once more and closes the journal, after the book is closed.</summary>
    public const int MostBehind = 3;

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

    private bool AreWarningsRight => Audit.Warnings.SequenceEqual(Audit.UndisturbedWarnings());

    /// <summary>Everything that is not as it should be, a line each.</summary>
    public IEnumerable<string> Faults =>
    [
        .. Lost.Select(l => $"lost: {l}"),
        .. Twice.Select(t => $"twice: {t}"),
        .. Ledger.Refused.Select(r => $"refused: {r}"),
        .. Unfounded.Select(u => $"not in the journal: {u}"),
        .. Audit.Recovery.Facts.Strange.Select(f => $"told, but does not follow: {f}"),
        .. Audit.Recovery.Facts.Untold.Select(f => $"follows, but was never told: {f}"),
        .. AreWarningsRight ? Array.Empty<string>() : ["the warnings are not those of an undisturbed run"],
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
            int readings = Audit.Keys.Count(k => k.StartsWith("reading", StringComparison.Ordinal));
            int warnings = Audit.Facts.OfType<Entry.WarningChanged>().Count(f => !f.IsOver), rulings = Audit.Facts.OfType<Entry.Ruled>().Count();
            int untold = Audit.Recovery.Facts.Untold.Count, strange = Audit.Recovery.Facts.Strange.Count;
            yield return Text($"acknowledged: {Count("reading")} readings, {Count("tap")} taps, {Count("job")} jobs, {Count("departure")} departures");
            yield return Text($"sent: {Ledger.Sent}, and {Ledger.Again} of them again; refused: {Ledger.Refused.Count}");
            yield return Text($"lost: {Lost.Count}; applied twice: {Twice.Count}");
            yield return Text($"believed: {Audit.Believed} of {readings} readings; {Audit.WrittenAgain} written again, and not believed again");
            yield return Text($"told: {warnings} warnings, {rulings} rulings, each once; untold {untold}, strange {strange}");
            yield return Text($"heard over MQTT: {Heard.Raised.Count()} raised, {Heard.Over.Count} over; not in the journal: {Unfounded.Count}");
            yield return Text($"warnings as of an undisturbed run: {AreWarningsRight}; book as one written anew: {IsBookRight}, {BookBehind} behind");

            int Count(string kind) => acknowledged.Count(a => a.StartsWith(kind, StringComparison.Ordinal));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
