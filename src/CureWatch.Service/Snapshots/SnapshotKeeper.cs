using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>Takes a snapshot now and then, so that a start has little of the journal to read. Nothing is decided here, so it runs on the time of the machine.</summary>
internal sealed class SnapshotKeeper(Latest latest, BookKeeper book, SnapshotFolder snapshots, StartNeeds needs, KeyStore keys, ILogger<SnapshotKeeper> log) : BackgroundService
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(1);

    /// <summary>How old the newest gets while anything comes. Source (choice): some thousand entries of a usual shop.</summary>
    private static readonly TimeSpan Usual = TimeSpan.FromHours(1);

    /// <summary>How old it gets while much comes. Source (choice): a large shop takes seconds to be written.</summary>
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(10);

    /// <summary>Much: some seconds to be read again. Source (choice).</summary>
    private const long MuchEntries = 100_000;

    /// <summary>Fewer entries than this are read again in no time.</summary>
    private const long FewEntries = 2_000;

    private readonly TimeProvider _time = TimeProvider.System;
    private long _through = snapshots.Sequences is [var newest, ..] ? newest : 0;
    private long _triedAt = TimeProvider.System.GetTimestamp();

    /// <summary>Once more at the end: the next start finds all that was committed by then.</summary>
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken).ConfigureAwait(false);
        if (Lacking >= FewEntries)
        {
            Take();
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        needs.From = snapshots.Sequences is [.., var oldest] ? oldest : 1;
        using var timer = new PeriodicTimer(LookEvery, _time);
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false))
        {
            TimeSpan age = _time.GetElapsedTime(_triedAt);
            if (age >= Usual ? Lacking > 0 : age >= Least && Lacking >= MuchEntries)
            {
                Take();
            }
        }
    }

    /// <summary>How many entries the newest does not have.</summary>
    private long Lacking => latest.Register.Sequence - _through;

    private void Take()
    {
        _triedAt = _time.GetTimestamp(); // also where it fails: one that finds no room is not begun again every minute
        try
        {
            Register register = latest.Register;
            needs.From = snapshots.Take(register, book.Booked.Level, keys);
            _through = register.Sequence;
        }
#pragma warning disable CA1031 // a start without a snapshot takes longer, and that is all
        catch (Exception e)
#pragma warning restore CA1031
        {
            Log.NotTaken(log, e);
        }
    }
}
