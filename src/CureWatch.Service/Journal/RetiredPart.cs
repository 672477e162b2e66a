using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using CureWatch.Service.Disk;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Journal;

/// <summary>A part of a journal that is in an archive and here no more, as the file tells that is left in its place.</summary>
/// <param name="JournalId">The journal's id, in lower-case hexadecimal.</param>
/// <param name="Segments">Its segments, in order.</param>
/// <param name="Archive">The name of the archive's file, in the folder of the backups.</param>
/// <remarks>It is written before the first segment goes, and never changed: whatever is cut off, the journal begins after one of its segments.</remarks>
internal sealed partial record RetiredPart(string JournalId, ImmutableArray<RetiredSegment> Segments, string Archive)
{
    private const string Ending = ".retired";
    private const int Form = 1;
    private const int LongestName = 300;

    /// <summary>The number of its first entry.</summary>
    public long First => Segments[0].First;

    /// <summary>The number of its last entry.</summary>
    public long Last => Segments[^1].Last;

    /// <summary>The name of its file: the number of its last entry.</summary>
    public string FileName => EntryName.Of(Last) + Ending;

    /// <summary>Every such part of a journal, in order.</summary>
    /// <exception cref="InvalidDataException">A file cannot be read.</exception>
    public static IReadOnlyList<RetiredPart> In(IDisk disk, string folder) =>
    [
        .. from name in disk.NamesIn(folder).Order(StringComparer.Ordinal)
           where Name().IsMatch(name)
           select Read(disk, Path.Combine(folder, name)),
    ];

    /// <returns>Where a journal stands before its first segment here.</returns>
    public static JournalEnd Before(IDisk disk, string folder, IReadOnlyList<Segment> segments)
    {
        if (segments is [{ First: > 1 and var first }, ..])
        {
            foreach (RetiredPart part in In(disk, folder))
            {
                if (part.Segments.FirstOrDefault(s => s.Last == first - 1) is { } before)
                {
                    return JournalEnd.Empty with { JournalId = Convert.FromHexString(part.JournalId), Last = before.Last, PreviousHash = before.Sha256 };
                }
            }
        }

        return JournalEnd.Empty;
    }

    public void Write(IDisk disk, string folder)
    {
        using var text = new StringWriter();
        JsonOutput.WriteDocument(text, json =>
        {
            json.WriteStartObject();
            json.WriteNumber("form", Form);
            json.WriteString("journal", JournalId);
            json.WriteString("archive", Archive);
            json.WriteArray("segments", Segments, segment =>
            {
                json.WriteNumber("first", segment.First);
                json.WriteNumber("last", segment.Last);
                json.WriteString("sha256", segment.Sha256);
            });
            json.WriteEndObject();
        });
        DurableFile.Create(disk, Path.Combine(folder, FileName), Encoding.UTF8.GetBytes(text.ToString()));
    }

    private static RetiredPart Read(IDisk disk, string path)
    {
        var faults = new Faults();
        if (JsonFile.Parse(path, DurableFile.Read(disk, path), faults) is { } top)
        {
            _ = top.Keys(["form", "journal", "archive", "segments"]);
            _ = top["form"].Integer(Form, Form);
            string? journal = top["journal"].String(Id().IsMatch, "32 digits 0-9a-f");
            string? archive = top["archive"].Text(LongestName);
            ImmutableArray<RetiredSegment> segments = [.. top["segments"].Items(least: 1).Select(Segment).OfType<RetiredSegment>()];
            if (faults.Count == 0)
            {
                return new RetiredPart(journal!, segments, archive!);
            }
        }

        throw new InvalidDataException(faults.All[0].ToString());
    }

    private static RetiredSegment? Segment(JsonCursor segment)
    {
        _ = segment.Keys(["first", "last", "sha256"]);
        long? first = segment["first"].Whole(1, long.MaxValue), last = segment["last"].Whole(first ?? 1, long.MaxValue);
        string? sha256 = segment["sha256"].String(Sha256().IsMatch, "64 digits 0-9a-f");
        return first is null || last is null || sha256 is null ? null : new RetiredSegment(first.Value, last.Value, sha256);
    }

    [GeneratedRegex(@"\A[0-9]{20}\.retired\z")]
    private static partial Regex Name();

    [GeneratedRegex(@"\A[0-9a-f]{32}\z")]
    private static partial Regex Id();

    [GeneratedRegex(@"\A[0-9a-f]{64}\z")]
    private static partial Regex Sha256();
}

/// <summary>A segment that is in an archive.</summary>
/// <param name="First">The number of its first entry.</param>
/// <param name="Last">The number of its last entry.</param>
/// <param name="Sha256">SHA-256 of it, which the next one's seal names.</param>
internal sealed record RetiredSegment(long First, long Last, string Sha256);
