namespace CureWatch.Service.Journal;

/// <summary>Where the journal is not what was written.</summary>
/// <param name="File">The file.</param>
/// <param name="Offset">Where in it [bytes].</param>
/// <param name="What">What is wrong.</param>
internal sealed record Damage(string File, long Offset, string What)
{
    public override string ToString() => $"{File}: byte {Offset}: {What}";
}
