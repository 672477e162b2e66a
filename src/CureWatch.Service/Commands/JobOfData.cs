using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Finds a car that is here in a data folder's own journal, which may be in use meanwhile.</summary>
internal static class JobOfData
{
    /// <param name="data">The data folder.</param>
    /// <param name="id">The job's id; null for the newest car that is here.</param>
    /// <param name="at">When; null for the end of the journal.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <returns>The shop and the job; null where the folder or the job cannot be used.</returns>
    public static (Shop Shop, JobState Job)? Find(string data, string? id, DateTimeOffset? at, Faults faults)
    {
        if (!DataFolder.HasJournal(LocalDisk.Instance, data, faults) || JournalFold.Of(LocalDisk.Instance, data, at, faults)?.Register is not { } register)
        {
            return null;
        }

        if (register.Shop is not { } shop)
        {
            faults.Add(data, "journal", "no shop set up by then", "a journal with a shop's settings");
            return null;
        }

        shop = at > shop.Now ? ShopFold.Take(shop, new Message.ClockReached(at.Value)).Shop : shop;
        if ((id is null ? shop.JobsInOrder.LastOrDefault(j => j.LeftAt is null) : shop.Find(id)) is { } job)
        {
            return (shop, job);
        }

        string known = shop.Jobs.IsEmpty ? "none was here then" : string.Join(" | ", shop.JobsInOrder.Select(j => j.Job.Id));
        faults.Add(data, "job", id ?? "nothing", $"a car that was here then: {known}");
        return null;
    }
}
