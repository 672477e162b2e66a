using CureWatch.Panels;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Book;

/// <summary>A <see cref="BookedWarning"/> on disk.</summary>
internal sealed class StoredWarning
{
    /// <summary>Which of all warnings ever given.</summary>
    public int Id { get; set; }

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "warning";

    public string Warning { get; set; } = "";

    public string? Bay { get; set; }

    public string? Probe { get; set; }

    public string? Job { get; set; }

    /// <summary>The surface the warning is about.</summary>
    public string? About { get; set; }

    public int Layer { get; set; }

    public int Section { get; set; }

    public string? Air { get; set; }

    /// <summary>The surface that was worst off.</summary>
    public string? Surface { get; set; }

    public long RaisedAtUnixMs { get; set; }

    public long? ClearedAtUnixMs { get; set; }

    public long? LeadMs { get; set; }

    /// <summary>What brought it about this time, in words.</summary>
    public string? Detail { get; set; }

    public static StoredWarning Of(BookedWarning booked)
    {
        (Subject subject, Warning warning) = (booked.Warning.Subject, booked.Warning);
        return new StoredWarning
        {
            Id = booked.Number,
            Warning = WireName<WarningKind>.Of(subject.Kind),
            Bay = subject.Bay,
            Probe = subject.Probe,
            Job = subject.Job,
            About = subject.Surface,
            Layer = subject.Layer,
            Section = subject.Section,
            Air = subject.Air is { } air ? WireName<Place>.Of(air) : null,
            Surface = warning.Surface,
            RaisedAtUnixMs = warning.RaisedAt.ToUnixTimeMilliseconds(),
            ClearedAtUnixMs = warning.ClearedAt?.ToUnixTimeMilliseconds(),
            LeadMs = warning.Lead is { } lead ? (long)lead.TotalMilliseconds : null,
            Detail = warning.Detail?.ToString(),
        };
    }

    public BookedWarning Read() => new(
        Id,
        new Warning(
            new Subject(StoredName.Of<WarningKind>(Warning))
            {
                Bay = Bay,
                Probe = Probe,
                Job = Job,
                Surface = About,
                Layer = Layer,
                Section = Section,
                Air = Air is null ? null : StoredName.Of<Place>(Air),
            },
            Surface,
            DateTimeOffset.FromUnixTimeMilliseconds(RaisedAtUnixMs),
            UnixMs.Instant(ClearedAtUnixMs),
            LeadMs is { } lead ? TimeSpan.FromMilliseconds(lead) : null) { Detail = Detail is null ? null : Sentence.Named(Detail) });
}
