using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>Folds a journal, from its beginning or from where it is known what followed from it.</summary>
/// <param name="disk">The disk.</param>
/// <param name="journalFolder">The journal's folder.</param>
/// <param name="codec">How entries are read.</param>
/// <param name="known">What followed from the entries up to one of them; null where all are read.</param>
internal sealed class Recovery(IDisk disk, string journalFolder, EntryCodec codec, Register? known = null)
{
    private readonly JournalReader _reader =
        known is null ? new JournalReader(disk, journalFolder) : JournalReader.From(disk, journalFolder, known.Sequence);

    /// <summary>What follows from the entries read so far.</summary>
    public Register Register { get; private set; } = known ?? Register.Blank;

    /// <summary>Where the journal ends.</summary>
    public JournalEnd End => _reader.End;

    /// <summary>Where the journal is damaged; null where it is whole.</summary>
    public Damage? Damage => _reader.Damage ?? (_reader.End.Last < Register.Sequence
        ? new Damage(journalFolder, 0, $"it ends with entry {_reader.End.Last}, but entry {Register.Sequence} was on the disk")
        : null);

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
    /// <exception cref="InvalidDataException">This program cannot read an entry, or those before the first are not here.</exception>
    public IEnumerable<Step> Steps()
    {
        foreach (Frame frame in _reader.Frames().SkipWhile(f => f.Sequence <= Register.Sequence))
        {
            if (frame.Sequence != Register.Sequence + 1)
            {
                throw new InvalidDataException(
                    $"it begins with entry {frame.Sequence}, and there is no snapshot that this program can use; 'restore --journal' puts back what its archives hold");
            }

            Entry entry = codec.Read(frame);
            Register before = Register;
            (Register, ImmutableArray<ShopEvent> happened) = Take(frame, entry);
            Facts.Expect(Pump.Facts.Of(before, happened));
            Facts.Met(entry);
            yield return new Step(frame.Sequence, frame.At, entry, happened, Register);
        }
    }

    /// <summary>The writer took in every entry before it was written. Where one cannot be, the journal is of another program, or forged.</summary>
    private (Register After, ImmutableArray<ShopEvent> Happened) Take(Frame frame, Entry entry)
    {
        try
        {
            return RegisterFold.Take(Register, frame.Sequence, frame.At, entry);
        }
#pragma warning disable CA1031 // whatever it breaks, it is the journal that cannot be used
        catch (Exception e) when (e is not InvalidDataException)
#pragma warning restore CA1031
        {
            throw new InvalidDataException($"entry {frame.Sequence} ({frame.Kind}) does not fit what came before it: {e.Message}", e);
        }
    }
}
