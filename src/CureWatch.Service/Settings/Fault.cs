using CureWatch.Words;

namespace CureWatch.Service.Settings;

/// <summary>One thing that cannot be used in something a person wrote. Always one line, whatever the file held.</summary>
internal sealed record Fault
{
    private const int LongestPlace = 200;
    private const int LongestSeen = 80;

    /// <param name="file">The file, as the person named it.</param>
    /// <param name="place">A line, or a JSON Pointer (RFC 6901), which is empty for the whole document.</param>
    /// <param name="seen">What stands there; cut where it is long.</param>
    /// <param name="allowed">What may stand there.</param>
    public Fault(string file, string place, string seen, string allowed)
    {
        File = OneLine.Of(file) is { Length: > 0 } named ? named : "a file without a name";
        Place = OneLine.Of(place, LongestPlace);
        Seen = OneLine.Of(seen, LongestSeen) is { Length: > 0 } line ? line : seen.Length == 0 ? "nothing" : "nothing that shows";
        Allowed = OneLine.Of(allowed);
        Words = Sentence.Word(Allowed);
    }

    public string File { get; }

    public string Place { get; }

    public string Seen { get; }

    /// <summary>What may stand there, in English: for scripts, files and logs.</summary>
    public string Allowed { get; }

    /// <summary>The same for people, in their tongue.</summary>
    public Sentence Words { get; private init; }

    /// <summary>A fault whose figures are said in the tongue of whoever reads it.</summary>
    public static Fault Of(SettingPlace where, string seen, Sentence allowed) => new(where.File, where.Place, seen, allowed.ToString()) { Words = allowed };

    public override string ToString() => $"{File}: {(Place.Length == 0 ? "whole document" : Place)}: saw {Seen}; allowed: {Allowed}";
}
