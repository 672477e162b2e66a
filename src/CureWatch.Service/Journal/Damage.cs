using CureWatch.Service.Settings;

namespace CureWatch.Service.Journal;

/// <summary>Where the journal is not what was written.</summary>
/// <param name="File">The file.</param>
/// <param name="Offset">Where in it [bytes].</param>
/// <param name="What">What is wrong.</param>
internal sealed record Damage(string File, long Offset, string What)
{
    /// <summary>A reason to go no further, with what can be done about it.</summary>
    public Fault Fault => new(
        File,
        $"byte {Offset}",
        What,
        "what was written: put the file back from a backup that has it (a zip file), or 'restore' one to a new folder; 'verify' names every damaged file");

    public override string ToString() => $"{File}: byte {Offset}: {What}";
}
