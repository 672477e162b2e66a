using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>Whether the keys still open what was sealed with them.</summary>
internal static class KeyCheck
{
    /// <param name="journal">The journal, which is read to its end, or to where it is damaged.</param>
    /// <param name="disk">The disk.</param>
    /// <param name="keys">The folder of the keys.</param>
    /// <returns>Every key that opens nothing and every entry that cannot be read, and the jobs whose key is gone: erased on purpose, or lost.</returns>
    public static (IReadOnlyList<string> Damages, IReadOnlyCollection<string> Gone) Of(JournalReader journal, IDisk disk, string keys)
    {
        var store = new KeyStore(disk, keys);
        var codec = new EntryCodec(store);
        var damages = new List<string>();
        foreach (Frame frame in journal.Frames())
        {
            damages.AddRange(Open(codec, frame) is { } damage ? [damage] : []);
        }

        damages.AddRange(store.Misfits.Select(file => $"{file}: it is not the key that sealed what the journal holds."));
        return ([.. damages.Distinct()], store.Unopened);
    }

    /// <summary>Opens what is sealed in an entry, for its key to show what it is.</summary>
    /// <returns>Why the entry cannot be read; null where it can.</returns>
    public static string? Open(EntryCodec codec, Frame frame)
    {
        if (frame.Kind is EntryKind.Reading or EntryKind.ClockReached)
        {
            return null; // nearly all there are, and nobody is in them
        }

        try
        {
            _ = codec.Read(frame);
            return null;
        }
        catch (InvalidDataException e)
        {
            return e.Message;
        }
    }
}
