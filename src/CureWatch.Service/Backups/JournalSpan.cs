using System.Text.Json;
using System.Text.RegularExpressions;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>A stretch of a journal.</summary>
/// <param name="Id">The journal's id, in lower-case hexadecimal.</param>
/// <param name="First">The number of its first entry.</param>
/// <param name="Last">The number of its last entry.</param>
/// <param name="LastAt">The instant of that entry.</param>
internal sealed partial record JournalSpan(string Id, long First, long Last, DateTimeOffset LastAt)
{
    /// <summary>Writes into an object that is open.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteString("id", Id);
        json.WriteNumber("first", First);
        json.WriteNumber("last", Last);
        json.WriteInstant("at", LastAt);
    }

    /// <returns>The stretch, or null where it has a fault.</returns>
    public static JournalSpan? Read(JsonCursor journal)
    {
        _ = journal.Keys(["id", "first", "last", "at"]);
        string? id = journal["id"].String(JournalId().IsMatch, "32 digits 0-9a-f");
        long? first = journal["first"].Whole(1, long.MaxValue);
        long? last = journal["last"].Whole(first ?? 1, long.MaxValue);
        DateTimeOffset? at = journal["at"].Instant();
        return id is null || first is null || last is null || at is null ? null : new JournalSpan(id, first.Value, last.Value, at.Value);
    }

    [GeneratedRegex(@"\A[0-9a-f]{32}\z")]
    private static partial Regex JournalId();
}
