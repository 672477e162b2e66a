using System.Text.Json;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;

namespace CureWatch.Service.Documents;

/// <summary>The day plan as JSON: the same on the command line, over HTTP and over MQTT. Writes into an object that is open.</summary>
/// <remarks>Nobody works to the second: what moves on with the clock is told by the minute. What names a person is left out where others read along.</remarks>
internal sealed class PlanJson(Utf8JsonWriter json, PlanWords words, bool namesPeople)
{
    private readonly DayPlan _plan = words.Plan;

    /// <summary>The whole document.</summary>
    public void Write()
    {
        json.WriteInstant("at", _plan.At);
        json.WriteInstant("until", Minute(_plan.Hours.Until));
        json.WriteBoolean("fits", _plan.Fits);
        json.WriteArray("bays", _plan.Bays, WriteBay);
        WriteRest(_plan.Conflicts);
    }

    /// <summary>A bay's part of it, with what concerns it.</summary>
    public void Write(BayDay bay)
    {
        WriteBay(bay);
        WriteRest(_plan.Conflicts.Where(c => c.Bay == bay.Bay || c.Work.Bay == bay.Bay));
    }

    public static void WriteWork(Utf8JsonWriter json, PlannedWork work, bool namesPeople)
    {
        json.WriteString("id", work.Id);
        json.WriteString("bay", work.Bay);
        json.WriteString("work", WireName<HarmfulWork>.Of(work.Work));
        json.WriteInstant("from", work.From);
        json.WriteInstant("to", work.To);
        json.WriteString("by", namesPeople ? work.By : null);
        json.WriteString("note", namesPeople ? work.Note : null);
    }

    private void WriteRest(IEnumerable<WorkConflict> conflicts)
    {
        json.WriteArray("conflicts", conflicts, WriteConflict);
        json.WriteNumber("people", _plan.Pace.People);
        json.WriteTexts("assumed", _plan.Assumed);
        json.WriteTexts("cautions", words.Cautions);
    }

    private void WriteBay(BayDay bay)
    {
        json.WriteString("bay", bay.Bay);
        json.WriteString("airspace", bay.Airspace);
        json.WriteString("text", words.Of(bay));
        json.WriteBoolean("isKnown", bay.Free.IsKnown);
        json.WriteInstant("freeAt", Minute(bay.Free.At));
        json.WriteString("takenBy", bay.Free.Job);
        json.WriteArray("cars", bay.Cars, WriteCar);
        json.WriteArray("work", bay.Work, w => WriteWork(json, w, namesPeople));
    }

    private void WriteCar(CarDay car)
    {
        json.WriteString("job", car.Job.Id);
        json.WriteString("text", words.Of(car));
        json.WriteBoolean("here", car.Arrival.IsHere);
        json.WriteBoolean("begun", car.IsBegun);
        json.WriteInstant("arrivesAt", car.Arrival.At);
        json.WriteRounded("arrivesAtC", car.Job.Visit?.ArrivesAtC);
        json.WriteInstant("dryFrom", Minute(car.Arrival.DryFrom));
        json.WriteInstant("askedAt", Minute(car.Asked.At));
        json.WriteInstant("beginsAt", Minute(car.Work.BeginsAt));
        json.WriteInstant("doneAt", Minute(car.Work.DoneAt));
        json.WriteBounds("readyAt", car.Work.ReadyAt is { } ready ? new TimeBounds(Minute(ready.Earliest), Minute(ready.Likely), Minute(ready.Latest)) : null);
        json.WriteInstant("freesAt", Minute(car.Work.FreesAt));
        json.WriteInstant("promisedAt", car.PromisedAt);
        json.WriteBoolean("planned", car.IsPlanned);
        json.WriteBoolean("fits", car.Asked.Fits);
        json.WriteInstant("earliestAt", Minute(car.Asked.EarliestAt));
        json.WriteArray("reasons", car.Asked.Reasons, r => StartJson.WriteReason(json, r));
        json.WriteArray("layers", car.Work.Layers, WriteLayer);
    }

    private void WriteLayer(LayerWork work)
    {
        json.WriteString("surface", work.Surface);
        json.WriteNumber("layer", work.Layer);
        json.WriteNumber("sections", work.Sections);
        json.WriteWhole("sectionsPerPass", work.IsTimed ? work.SectionsPerPass : null);
        json.WriteInstant("beginsAt", Minute(work.BeginsAt));
        json.WriteInstant("doneAt", Minute(work.DoneAt));
        json.WriteInstant("dryAt", Minute(work.DryAt?.Latest));
    }

    private void WriteConflict(WorkConflict conflict)
    {
        json.WriteString("id", conflict.Work.Id);
        json.WriteString("work", WireName<HarmfulWork>.Of(conflict.Work.Work));
        json.WriteString("bay", conflict.Work.Bay);
        json.WriteString("job", conflict.Work.Job);
        json.WriteString("airspace", conflict.Work.Airspace);
        json.WriteString("harm", WireName<Harm>.Of(conflict.Harm));
        json.WriteString("harmedJob", conflict.Job);
        json.WriteString("harmedBay", conflict.Bay);
        json.WriteStartArray("surfaces");
        foreach (string surface in conflict.Surfaces)
        {
            json.WriteStringValue(surface);
        }

        json.WriteEndArray();
        json.WriteInstant("from", Minute(conflict.From));
        json.WriteInstant("to", Minute(conflict.To));
        json.WriteInstant("openUntil", Minute(conflict.OpenUntil));
        json.WriteInstant("freeFrom", Minute(conflict.FreeFrom));
        json.WriteString("text", words.Of(conflict));
    }

    private static DateTimeOffset? Minute(DateTimeOffset? at) => at - TimeSpan.FromTicks((at?.UtcTicks ?? 0) % TimeSpan.TicksPerMinute);
}
