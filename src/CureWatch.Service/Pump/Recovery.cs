using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>Folds a journal from its beginning.</summary>
internal sealed class Recovery(IDisk disk, string journalFolder, EntryCodec codec)
{
    private readonly JournalReader _reader = new(disk, journalFolder);

    /// <summary>What follows from the entries read so far.</summary>
    public Register Register { get; private set; } = Register.Blank;

    /// <summary>Where the journal ends.</summary>
    public JournalEnd End => _reader.End;

    /// <summary>Where the journal is damaged; null where it is whole.</summary>
    public Damage? Damage => _reader.Damage;

    /// <summary>The facts in the journal against those that follow.</summary>
    public FactCheck Facts { get; } = new();

    /// <summary>Reads and folds everything.</summary>
    public void Run()
    {
        foreach (Step _ in Steps())
        {
            // Each step changes the register.
        }
    }

    /// <summary>Reads and folds entry by entry.</summary>
    /// <exception cref="InvalidDataException">This program cannot read an entry.</exception>
    public IEnumerable<Step> Steps()
    {
        foreach (Frame frame in _reader.Frames())
        {
            Entry entry = codec.Read(frame);
            Register before = Register;
            (Register, ImmutableArray<ShopEvent> happened) = RegisterFold.Take(before, frame.Sequence, frame.At, entry);
            Facts.Expect(Pump.Facts.Of(before, happened));
            Facts.Met(entry);
            yield return new Step(frame.Sequence, frame.At, entry, happened, Register);
        }
    }
}
