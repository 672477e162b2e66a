using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A day replayed from a data folder's own journal, which may be in use meanwhile.</summary>
internal static class DataReplay
{
    /// <returns>The day, or null where the folder or the job cannot be used.</returns>
    public static DayReplay? Run(string data, string? job, DateTimeOffset? until, Faults faults) =>
        Fold(data, until, faults) is { } register ? Of(data, register, job, until, faults) : null;

    /// <summary>Folds a data folder's journal up to an instant.</summary>
    /// <returns>What follows from it; null where it cannot be read, or is damaged.</returns>
    public static Register? Fold(string data, DateTimeOffset? until, Faults faults) =>
        DataFolder.HasJournal(data, faults) ? JournalFold.Of(data, until, faults)?.Register : null;

    /// <summary>How a job stands in a register.</summary>
    /// <returns>The day; null where there is no such job.</returns>
    public static DayReplay? Of(string data, Register register, string? job, DateTimeOffset? until, Faults faults)
    {
        if (register.Shop is not { } shop)
        {
            faults.Add(data, "journal", "no shop set up by then", "a journal with a shop's settings");
            return null;
        }

        shop = until > shop.Now ? ShopFold.Take(shop, new Message.ClockReached(until.Value)).Shop : shop;
        string? id = job ?? (shop.Jobs.IsEmpty ? null : shop.Jobs[^1].Job.Id);
        if (id is not null && shop.Find(id) is null)
        {
            string known = shop.Jobs.IsEmpty ? "none was begun by then" : string.Join(" | ", shop.Jobs.Select(j => j.Job.Id));
            faults.Add(data, "job", id, $"a job of this folder: {known}");
            return null;
        }

        return new DayReplay(id is null ? null : JobReport.Of(shop, id), shop.Plan, shop.Tally);
    }
}
