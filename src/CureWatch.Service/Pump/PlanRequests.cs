using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Decides on what people ask of the day plan, against the state of this moment.</summary>
internal static class PlanRequests
{
    private const int LongestText = 200;

    /// <summary>Most works planned at once: a week of half-hours in every bay of a usual shop. Source (choice).</summary>
    private const int MostWorks = 1_000;

    /// <summary>Longest work. Source (choice): who plans longer plans another thing.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(2);

    /// <summary>How far ahead anything is planned. Source (choice).</summary>
    public static readonly TimeSpan Farthest = TimeSpan.FromDays(366);

    /// <summary>What people plan; that a car comes in follows from its job.</summary>
    private static readonly string[] Works =
        [.. Enum.GetValues<HarmfulWork>().Where(w => w != HarmfulWork.CarComesIn).Select(WireName<HarmfulWork>.Of)];

    public static Decision On(Register register, Arrival.Planned arrival, DateTimeOffset now)
    {
        var faults = new Faults();
        if (register.Shop is not { } shop || JsonFile.Parse(arrival.Source, arrival.Utf8.Span, faults) is not { } top)
        {
            return Decision.Nothing(new Answer.Refused([.. faults.All]));
        }

        Decision decision = arrival.Verb switch
        {
            PlanVerb.Drop => Drop(shop, arrival.Id!, top),
            PlanVerb.Visit => Visit(shop, arrival.Id!, top),
            PlanVerb.Cancel => Cancel(shop, arrival.Id!, top, now),
            _ => Plan(shop, arrival, top, now),
        };
        return faults.Count > 0 ? Decision.Nothing(new Answer.Refused([.. faults.All])) : decision;
    }

    private static Decision Plan(Shop shop, Arrival.Planned arrival, JsonCursor top, DateTimeOffset now)
    {
        _ = top.Keys(["bay", "work", "from", "to"], "id", "by", "note");
        string[] bays = [.. shop.Plan.Bays.Select(b => b.Bay)];
        string? bay = top["bay"].String(bays.Contains, $"a bay of the shop: {string.Join(", ", bays)}");
        string? work = top["work"].String(Works.Contains, string.Join(" | ", Works)), id = top["id"].Id();
        DateTimeOffset? from = top["from"].Instant(), to = top["to"].Instant();
        string? by = top["by"].Text(LongestText), note = top["note"].Text(LongestText);
        if (arrival.Id is { } named && id is not null && id != named)
        {
            top["id"].Refuse($"the id in the address, {named}, or none");
        }

        if (from > now + Farthest)
        {
            top["from"].Refuse($"no later than {UtcText.Of(now + Farthest)}");
        }

        if (to <= from || to - from > Longest || to <= now)
        {
            top["to"].Refuse($"after from and after now, {UtcText.Of(now)}, and {Longest:c} after from at most");
        }

        if (bay is null || work is null || from is null || to is null)
        {
            return default;
        }

        id = arrival.Id ?? id ?? NewId(shop, work);
        var planned = new PlannedWork(id, bay, WireName<HarmfulWork>.Find(work)!.Value, from.Value, to.Value, by, note);
        PlannedWork? before = shop.Planned.FirstOrDefault(w => w.Id == id);
        if (before == planned)
        {
            return Decision.Nothing(new Answer.Repeated(id));
        }

        if (before is not null && arrival.Verb == PlanVerb.Add)
        {
            top["id"].Refuse("an id that no planned work has; to plan it otherwise, put it");
        }

        if (before is null && shop.Planned.Count(w => w.To > now) >= MostWorks)
        {
            top.Refuse($"{MostWorks}", $"at most {MostWorks} planned works");
        }

        return new Decision(new Answer.Stored(id), [new Entry.WorkPlanned(planned)]);
    }

    private static Decision Drop(Shop shop, string id, JsonCursor top)
    {
        _ = top.Keys([], "by", "note");
        string? by = top["by"].Text(LongestText), note = top["note"].Text(LongestText);
        return shop.Planned.Any(w => w.Id == id)
            ? new Decision(new Answer.Stored(id), [new Entry.WorkDropped(id, by, note)])
            : Decision.Nothing(new Answer.Unfit($"No work '{id}' is planned."));
    }

    private static Decision Visit(Shop shop, string id, JsonCursor top)
    {
        _ = top.Keys([], [.. VisitOfJob.Keys, "by", "note"]);
        Visit visit = VisitOfJob.Read(top) ?? new Visit(null, null, null);
        string? by = top["by"].Text(LongestText), note = top["note"].Text(LongestText);
        return shop.Find(id) is not { LeftAt: null } job ? Decision.Nothing(new Answer.NoSuchJob(id))
            : job.Job.Visit == visit ? Decision.Nothing(new Answer.Repeated(id))
            : new Decision(new Answer.Stored(id), [new Entry.VisitPlanned(id, visit, by, note)]);
    }

    private static Decision Cancel(Shop shop, string id, JsonCursor top, DateTimeOffset now)
    {
        _ = top.Keys([], "by", "note");
        string? by = top["by"].Text(LongestText), note = top["note"].Text(LongestText);
        return shop.Find(id) is not { LeftAt: null } job ? Decision.Nothing(new Answer.NoSuchJob(id))
            : job.IsExpectedAt(now) ? new Decision(new Answer.Stored(id), [new Entry.VisitCancelled(id, by, note)])
            : Decision.Nothing(new Answer.Unfit($"The car of '{id}' is here: it leaves by its handover."));
    }

    /// <summary>The work with the first number that none has: the same wherever the journal is replayed.</summary>
    private static string NewId(Shop shop, string work)
    {
        for (int number = 1; ; number++)
        {
            string id = $"{work}-{number}";
            if (shop.Planned.All(w => w.Id != id))
            {
                return id;
            }
        }
    }
}
