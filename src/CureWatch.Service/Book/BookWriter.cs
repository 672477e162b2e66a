using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Documents;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>Writes what entries brought about into the book. The same entries give the same book, however they come in.</summary>
internal sealed class BookWriter
{
    private readonly BookFile _file;
    private readonly OpenBlocks _open;
    private readonly List<Action> _rows = [];
    private long _savedThrough;

    public BookWriter(BookFile file, OpenBlocks open)
    {
        (_file, _open) = (file, open);
        Position = file.Position() ?? throw new InvalidDataException("it is no book");
        _savedThrough = Position.ReadingsThrough;
        foreach (StoredBlock block in file.Open.FindAll().ToList())
        {
            open.Load(block.Read());
        }
    }

    /// <summary>How far the book is, what lies in memory included.</summary>
    public BookPosition Position { get; private set; }

    /// <summary>Whether there is anything that would have to be read from the journal again.</summary>
    public bool IsUnsaved => _savedThrough < Position.ReadingsThrough;

    /// <summary>Takes entries in, in order. Readings wait in memory until their block is full; all else is on disk then.</summary>
    public void Take(IEnumerable<Step> steps)
    {
        foreach (Step step in steps)
        {
            Take(step);
        }

        if (_rows.Count > 0)
        {
            Store();
        }
    }

    /// <summary>Brings everything onto the disk, so that nothing has to be read from the journal again.</summary>
    public void Save()
    {
        foreach (ReadingBlock block in _open.Unsaved)
        {
            _rows.Add(() => _file.Open.Upsert(StoredBlock.OfOpen(block)));
        }

        _savedThrough = Position.ReadingsThrough;
        Store();
        _open.Saved();
    }

    private void Store()
    {
        _file.Write(() =>
        {
            _rows.ForEach(row => row());
            _file.Positions.Upsert(StoredPosition.Of(Position with { ReadingsThrough = _savedThrough }));
        });
        _rows.Clear();
    }

    private void Take(Step step)
    {
        if (step.Entry is Entry.Reading)
        {
            TakeReading(step);
        }

        Position = Position with { ReadingsThrough = Math.Max(Position.ReadingsThrough, step.Sequence) };
        if (step.Sequence <= Position.Sequence)
        {
            return;   // read once more for the sake of the readings alone
        }

        if (Position.Sequence == 0 && step.Sequence > 1)
        {
            TakeOver(step.After.Shop);
        }

        Position = Position with { Sequence = step.Sequence, At = step.At };
        switch (step.Entry)
        {
            case Entry.JobStarted e:
                Begin(step.Sequence, e.Job, step.At);
                break;
            case Entry.HandedOver e:
                HandOver(step, e);
                break;
            case Entry.Tapped e:
                Add(() => _file.Taps.Upsert(StoredTap.Of(new BookedTap(step.Sequence, e.Job, e.Tap))));
                break;
            case Entry.WarningChanged e when step.After.Shop?.Warnings.GetValueOrDefault(e.Number) is { } given:
                var warning = new BookedWarning(e.Number, given);
                Add(() => _file.Warnings.Upsert(StoredWarning.Of(warning)));
                break;
        }
    }

    /// <summary>Where the journal's beginning is in an archive, the cars that are here came before it: their entries are unknown, their order is not.</summary>
    private void TakeOver(Shop? shop)
    {
        foreach (JobState here in shop?.JobsInOrder.Where(j => j.LeftAt is null) ?? [])
        {
            Begin(here.Number + 1, here.Job, here.OpenedAt);
        }
    }

    private void Begin(long number, Job job, DateTimeOffset at)
    {
        var booked = new BookedJob(number, job.Id, job.Bay, at, job.PromisedAt, null, job.Surfaces);
        Add(() => _file.Jobs.Upsert(StoredJob.Of(booked)));
    }

    private void HandOver(Step step, Entry.HandedOver left)
    {
        Shop shop = step.After.Shop!;
        using var json = new StringWriter();
        JsonOutput.WriteDocument(json, w => ReplayJson.Write(w, JobReport.Of(shop, left.Job), shop.Tally));
        var record = new StoredRecord { Id = left.Job, Json = json.ToString() };
        Add(() =>
        {
            BookedJob job = _file.Jobs.FindById(left.Job).Read();
            _file.Jobs.Upsert(StoredJob.Of(job with { Left = new BookedDeparture(step.Sequence, step.At, left.Despite is not null) }));
            _file.Records.Upsert(record);
        });
    }

    private void TakeReading(Step step)
    {
        foreach (ShopEvent e in step.Happened)
        {
            if (e is ShopEvent.ReadingBelieved { Raw: var raw } && Reading(raw) is { } reading
                && _open.Take(raw.Bay, raw.Probe, step.Sequence, reading) is { } full)
            {
                ReadingBlock next = _open.Of(raw.Bay, raw.Probe)!;
                Add(() => _file.Blocks.Upsert(StoredBlock.OfSealed(full)));
                Add(() => _file.Open.Upsert(StoredBlock.OfOpen(next)));
            }
        }
    }

    private static BookedReading? Reading(RawReading raw) => (raw.HumidityPct is null ? raw.PanelC ?? raw.AirC : raw.AirC) is { } celsius
        ? new BookedReading(raw.MeasuredAt, celsius, raw.HumidityPct)
        : null;

    private void Add(Action row) => _rows.Add(row);
}
