using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Takes entries into the register, live and in every replay alike.</summary>
internal static class RegisterFold
{
    /// <summary>Takes an entry in.</summary>
    /// <returns>The register after it, and what happened in the shop on the way.</returns>
    public static (Register After, ImmutableArray<ShopEvent> Happened) Take(Register register, long sequence, DateTimeOffset at, Entry entry)
    {
        (Register after, Message? message) = entry switch
        {
            Entry.Reading e => (register, ReadingCame(e, at)),
            Entry.ClockReached or Entry.EngineStarted => (register, new Message.ClockReached(at)),
            Entry.RefusalsCounted e => (Count(register, e), Refused(e, at)),
            Entry.SettingsChanged e => SetUp(register, e, at),
            Entry.JobStarted e => (Start(register, e, at), new Message.JobStarted(e.Job, at)),
            Entry.Tapped e => (register with { Batches = Batches.After(register, e.Job, e.Tap) }, new Message.Tapped(e.Job, e.Tap)),
            Entry.HandedOver e => (HandOver(register, e, at), new Message.CarLeft(e.Job, at)),
            Entry.LearningReset e => (register, new Message.LearningReset(e.Product, e.Bay, at)),
            Entry.WorkPlanned e => (register, new Message.WorkPlanned(e.Work, at)),
            Entry.WorkDropped e => (register, new Message.WorkDropped(e.Id, at)),
            Entry.VisitPlanned e => (register, new Message.VisitPlanned(e.Job, e.Visit, at)),
            Entry.VisitCancelled e => (register, new Message.VisitCancelled(e.Job, at)),
            Entry.PhotoAdded e => (PhotoRequests.Take(register, e, at), null),
            Entry.PhotoRemoved e => (PhotoRequests.Take(register, e, at), null),
            Entry.WarningChanged or Entry.Ruled or Entry.SegmentSealed or Entry.JournalClosed => (register, (Message?)null),
            _ => throw new UnreachableException(entry.GetType().Name),
        };
        if (message is null || after.Shop is null)
        {
            return (after with { Sequence = sequence, At = at }, []);
        }

        (Shop shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(after.Shop, message);
        after = after with { Sequence = sequence, At = at, Shop = shop };
        foreach (ShopEvent e in happened)
        {
            after = e switch
            {
                ShopEvent.RulingTurned => after with { Turns = after.Turns + 1 },
                ShopEvent.ReadingDoubted { Raw: var raw, Why: var why } => Count(after, (WireName<Disbelief>.Of(why), $"{raw.Bay}/{raw.Probe}"), 1),
                _ => after,
            };
        }

        return (after, happened);
    }

    private static Message.ReadingCame ReadingCame(Entry.Reading e, DateTimeOffset at) =>
        new(new RawReading(e.Bay, e.Probe, e.MeasuredAt ?? at, at, e.AirC, e.HumidityPct, e.PanelC, e.Sequence, HasClock: e.MeasuredAt is not null));

    private static Message.MessagesRefused Refused(Entry.RefusalsCounted e, DateTimeOffset at) => new(
        [.. e.Counts.GroupBy(c => c.Reason).Select(g => (WireName<Disbelief>.Find(g.Key)!.Value, g.Sum(c => c.Count)))], at);

    private static (Register, Message?) SetUp(Register register, Entry.SettingsChanged e, DateTimeOffset at)
    {
        SettingsRegister settings = register.Settings.With(e);
        Register after = register with { Settings = settings };
        if (e.Item.Kind == SettingsItem.Product)
        {
            return (after, new Message.SheetAdded(settings.Catalogue.Find(e.Item.Id, e.Item.Revision)!, at));
        }

        return register.Shop is null
            ? (after with { Shop = Shop.Opening(settings.Shop!.Plan, settings.Catalogue.Sheets, at) }, null)
            : (after, new Message.PlanChanged(settings.Shop!.Plan, at));
    }

    private static Register Start(Register register, Entry.JobStarted e, DateTimeOffset at) =>
        register with { Jobs = register.Jobs.SetItem(e.Job.Id, new JobMarks(register.Jobs.Count, e.Job.Car, at, e.Pins, null)) };

    private static Register HandOver(Register register, Entry.HandedOver e, DateTimeOffset at) =>
        register with { Jobs = register.Jobs.SetItem(e.Job, register.Jobs[e.Job] with { HandedOver = (at, e.By, e.Despite) }) };

    private static Register Count(Register register, Entry.RefusalsCounted e) =>
        e.Counts.Aggregate(register, (sum, c) => Count(sum, (c.Reason, c.Place), c.Count));

    private static Register Count(Register register, (string Reason, string Place) what, int count) =>
        register with { Refusals = register.Refusals.SetItem(what, register.Refusals.GetValueOrDefault(what) + count) };
}
