using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Products;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Decides what people ask for, against the state of this moment.</summary>
internal static class Requests
{
    public static Decision OnTap(Register register, Arrival.Tap arrival, DateTimeOffset now)
    {
        var faults = new Faults();
        if (JsonFile.Parse(arrival.Source, arrival.Utf8.Span, faults) is not { } top)
        {
            return Refuse(faults);
        }

        string? id = arrival.Job ?? top["job"].Id();
        if (id is null)
        {
            _ = top.Keys(["job", "at", "did"], TapOfJob.Optional);
            return Refuse(faults);
        }

        if (register.Shop?.Find(id) is not { } job)
        {
            return register.Jobs.ContainsKey(id) ? RefuseClosed(arrival.Source, id, faults) : Decision.Nothing(new Answer.NoSuchJob(id));
        }

        string[] whereabouts = [.. register.Shop.Plan.Bays.Select(b => b.Bay), Whereabouts.Store, Whereabouts.Outside];
        TapOfJob told = TapOfJob.ReadAlone(top, TappedSurfaces.Of(job.Job.Surfaces), whereabouts);
        Tap? tap = told.Tap is { } read ? LiveTap.Of(read, told.SaysWhenTold, now, top["at"]) : null;
        if (tap?.Corrects is { } corrected && !job.Told.Any(t => t.Id == corrected))
        {
            top["corrects"].Refuse("the id of a tap of this job");
        }

        if (faults.Count > 0 || tap is null)
        {
            return Refuse(faults);
        }

        if (tap.Id is not null && job.Told.FirstOrDefault(t => t.Id == tap.Id) is { } before)
        {
            Tap again = arrival.Button is not null && before is { By: null, Note: null } ? told.Tap! with { By = null, Note = null } : told.Tap!; // it may have been taken unnamed
            if (LiveTap.IsRetry(before, again))
            {
                return Decision.Nothing(new Answer.Repeated(id));
            }

            top["id"].Refuse("each id once; the same tap told again says the same");
            return Refuse(faults);
        }

        return new Decision(new Answer.Stored(id), [new Entry.Tapped(id, Batches.Filled(register, job, tap))]);
    }

    public static Decision OnJobStart(Register register, Arrival.JobStart arrival, DateTimeOffset now)
    {
        var faults = new Faults();
        SettingsRegister settings = register.Settings;
        var configuration = new Configuration(settings.Shop!, settings.Catalogue);
        if (JobFile.Parse(arrival.Source, arrival.Utf8.Span, configuration, faults) is not { } record)
        {
            return Refuse(faults);
        }

        Job job = record.Job;
        if (register.Shop!.Find(job.Id) is { } before)
        {
            if (IsRetry(before.Job, job) || (JobFile.Parse(arrival.Source, arrival.Utf8.Span, AsOf(configuration, before.Job), new Faults()) is { } then && IsRetry(before.Job, then.Job)))
            {
                return Decision.Nothing(new Answer.Repeated(job.Id));
            }

            return RefuseUsed(arrival.Source, job.Id, faults);
        }

        if (register.Jobs.ContainsKey(job.Id))
        {
            return RefuseUsed(arrival.Source, job.Id, faults);
        }

        foreach (Tap tap in record.Taps.Where(t => LiveTap.IsAhead(t, now)))
        {
            faults.Add(arrival.Source, "/taps", UtcText.Of(tap.At), $"taps no later than now, {UtcText.Of(now)}");
        }

        if (faults.Count > 0)
        {
            return Refuse(faults);
        }

        ImmutableArray<SheetPin> pins =
        [
            .. from sheet in job.Surfaces.SelectMany(s => s.Products()).Select(p => (p.Product, p.Revision)).Distinct()
               let item = new SettingsItem(SettingsItem.Product, sheet.Product, sheet.Revision)
               select new SheetPin(sheet.Product, sheet.Revision, settings.Documents[item].Sha256),
        ];
        IEnumerable<Entry> taps = record.Taps.Select(t => new Entry.Tapped(job.Id, LiveTap.NotAfter(t, now)));
        return new Decision(new Answer.Stored(job.Id), [new Entry.JobStarted(job, pins), .. taps]);
    }

    public static Decision OnHandOver(Register register, Arrival.HandOver arrival, DateTimeOffset now)
    {
        if (register.Shop is null || !register.Jobs.TryGetValue(arrival.Job, out JobMarks? job))
        {
            return Decision.Nothing(new Answer.NoSuchJob(arrival.Job));
        }

        if (job.HandedOver is not null)
        {
            return Decision.Nothing(new Answer.Repeated(arrival.Job));
        }

        if (register.Shop.Find(arrival.Job) is null)
        {
            return Decision.Nothing(new Answer.NoSuchJob(arrival.Job)); // its visit was cancelled
        }

        Shop present = ShopFold.Take(register.Shop, new Message.ClockReached(now)).Shop;
        Ruling ruling = JobReport.Of(present, arrival.Job).Ruling;
        return ruling.IsReady || arrival.Despite is not null
            ? new Decision(
                new Answer.Stored(arrival.Job),
                [new Entry.HandedOver(arrival.Job, arrival.By, ruling.IsReady ? null : arrival.Despite)])
            : Decision.Nothing(new Answer.Held(ruling.Holds));
    }

    private static bool IsRetry(Job before, Job again) =>
        before with { Surfaces = [], Visit = again.Visit } == again with { Surfaces = [] } && before.Surfaces.SequenceEqual(again.Surfaces); // its visit may be planned otherwise since

    /// <summary>The sheets as they were when a job was begun: one that names no revision had the newest of then.</summary>
    private static Configuration AsOf(Configuration configuration, Job job)
    {
        ILookup<string, int> pinned = job.Surfaces.SelectMany(s => s.Products()).ToLookup(p => p.Product, p => p.Revision);
        return configuration with { Catalogue = new Catalogue([.. configuration.Catalogue.Sheets.Where(s => !(s.Revision > pinned[s.Product].DefaultIfEmpty(s.Revision).Max()))]) };
    }

    private static Decision RefuseClosed(string source, string job, Faults faults)
    {
        faults.Add(source, "/job", job, "a job whose car is here, or left less than two days ago: after that, and once its visit is cancelled, its record is closed");
        return Refuse(faults);
    }

    private static Decision RefuseUsed(string source, string job, Faults faults)
    {
        faults.Add(source, "/job", job, "an id that no job had before");
        return Refuse(faults);
    }

    private static Decision Refuse(Faults faults) => Decision.Nothing(new Answer.Refused([.. faults.All]));
}
