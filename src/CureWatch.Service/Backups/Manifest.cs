using System.Collections.Immutable;
using System.Text.Json;
using System.Text.RegularExpressions;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>What a backup says of itself.</summary>
/// <param name="Program">The version of the program that wrote it.</param>
/// <param name="At">When it was begun.</param>
/// <param name="Journal">The part of the journal in it.</param>
/// <param name="IsDemo">Whether the data is a demo's.</param>
/// <param name="IsPart">Whether it holds nothing but a part of the journal that was retired.</param>
/// <param name="Files">Every file in it but this one.</param>
internal sealed partial record Manifest(
    string Program, DateTimeOffset At, JournalSpan Journal, bool IsDemo, bool IsPart, ImmutableArray<ArchivedFile> Files)
{
    /// <summary>Of the whole archive. A later one is refused, by its number.</summary>
    private const int Form = 1;

    private const int LongestProgram = 100;

    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("form", Form);
        json.WriteString("program", Program);
        json.WriteInstant("at", At);
        json.WriteBoolean("demo", IsDemo);
        json.WriteBoolean("part", IsPart);
        json.WriteStartObject("journal");
        Journal.Write(json);
        json.WriteEndObject();
        json.WriteArray("files", Files, file =>
        {
            json.WriteString("name", file.Name);
            json.WriteString("role", file.Role);
            json.WriteNumber("bytes", file.Bytes);
            json.WriteString("sha256", file.Sha256);
        });
        json.WriteEndObject();
    }

    /// <param name="source">Names the document in a fault.</param>
    /// <param name="utf8">The document.</param>
    /// <param name="faults">Where faults are kept.</param>
    /// <returns>The manifest, or null where it has a fault.</returns>
    public static Manifest? Read(string source, ReadOnlySpan<byte> utf8, Faults faults)
    {
        int before = faults.Count;
        if (JsonFile.Parse(source, utf8, faults) is not { } top || top["form"].Integer(Form, Form) is null)
        {
            if (faults.Count == before)
            {
                faults.Add(source, "/form", "nothing", $"the form {Form}");
            }

            return null;
        }

        _ = top.Keys(["form", "program", "at", "demo", "part", "journal", "files"]);
        string? program = top["program"].Text(LongestProgram);
        DateTimeOffset? at = top["at"].Instant();
        bool? isDemo = top["demo"].Flag(), isPart = top["part"].Flag();
        JournalSpan? journal = JournalSpan.Read(top["journal"]);
        ImmutableArray<ArchivedFile> files = [.. top["files"].Items(most: Archive.MostEntries).Select(File).OfType<ArchivedFile>()];
        return faults.Count > before ? null : new Manifest(program!, at!.Value, journal!, isDemo!.Value, isPart!.Value, files);
    }

    private static ArchivedFile? File(JsonCursor file)
    {
        _ = file.Keys(["name", "role", "bytes", "sha256"]);
        string? name = file["name"].String(n => ArchiveNames.RoleOf(n) is not null, ArchiveNames.Allowed);
        string? role = name is null ? null : ArchiveNames.RoleOf(name);
        _ = file["role"].String(r => role is null || r == role, role ?? "the file's role");
        long? bytes = file["bytes"].Whole(0, ArchiveNames.MostBytesOf(name ?? ""));
        string? sha256 = file["sha256"].String(Sha256().IsMatch, "64 digits 0-9a-f");
        return name is null || bytes is null || sha256 is null ? null : new ArchivedFile(name, bytes.Value, sha256);
    }

    [GeneratedRegex(@"\A[0-9a-f]{64}\z")]
    private static partial Regex Sha256();
}
