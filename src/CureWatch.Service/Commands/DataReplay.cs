using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A day replayed from a data folder's own journal, which may be in use meanwhile.</summary>
/// <param name="data">The data folder.</param>
/// <param name="job">The job asked for; null for the only or the newest one.</param>
/// <param name="until">Where to stop; null for the end of the journal.</param>
/// <param name="faults">Where it is said why not.</param>
internal sealed class DataReplay(string data, string? job, DateTimeOffset? until, Faults faults)
{
    private (int Number, JobReport Last)? _closed;

    /// <summary>Takes down what happened on the way; null where nobody asks.</summary>
    public DayRecording? Recording { get; init; }

    /// <returns>The day and what follows from the journal, or null where the folder or the job cannot be used.</returns>
    public (DayReplay Day, Register Register)? Run()
    {
        if (!DataFolder.HasJournal(LocalDisk.Instance, data, faults) || JournalFold.Of(LocalDisk.Instance, data, until, faults, Look)?.Register is not { } register)
        {
            return null;
        }

        if (register.Shop is not { } shop)
        {
            faults.Add(data, "journal", "no shop set up by then", "a journal with a shop's settings");
            return null;
        }

        if (until > shop.Now)
        {
            (shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(shop, new Message.ClockReached(until.Value));
            LookForIt(happened, register);
        }

        string? id = job ?? register.Jobs.OrderByDescending(j => j.Value.Number).Select(j => j.Key).FirstOrDefault();
        if (id is null)
        {
            return (new DayReplay(null, shop.Plan, shop.Tally), register);
        }

        JobReport? report = shop.Find(id) is not null ? JobReport.Of(shop, id) : _closed?.Last.Job.Id == id ? _closed?.Last : null;
        if (report is null)
        {
            string known = register.Jobs.IsEmpty ? "none was begun by then" : string.Join(" | ", register.Jobs.OrderBy(j => j.Value.Number).Select(j => j.Key));
            faults.Add(data, "job", id, $"a job of this folder: {known}");
            return null;
        }

        return (new DayReplay(report, shop.Plan, shop.Tally), register);
    }

    private void Look(Step step)
    {
        Recording?.Look(step);
        LookForIt(step.Happened, step.After);
    }

    /// <summary>The shop lets go of a job two days after its car left: how it stood then is all that is left of it.</summary>
    private void LookForIt(ImmutableArray<ShopEvent> happened, Register after)
    {
        foreach (ShopEvent.JobClosed e in happened.OfType<ShopEvent.JobClosed>())
        {
            int number = after.Jobs[e.Last.Job.Id].Number;
            if (job is null ? !(number < _closed?.Number) : e.Last.Job.Id == job)
            {
                _closed = (number, e.Last);
            }
        }
    }
}
