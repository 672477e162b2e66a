using System.Globalization;
using System.Text;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Service.Documents;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Writes a job and all it rests on in the forms people write them in, instants to the last digit.</summary>
internal static class ExportedFolder
{
    public const string Config = "config";
    public const string Readings = "readings.csv";
    public const string Job = "job.json";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    public static void Write(
        string folder, SettingsRegister settings, JobReport report, LivedDay? day, IEnumerable<(Entry.Reading Reading, DateTimeOffset At)> readings)
    {
        WriteSettings(Path.Combine(folder, Config), settings);
        WriteReadings(Path.Combine(folder, Readings), readings);
        using FileStream file = File.Create(Path.Combine(folder, Job));
        using var json = new Utf8JsonWriter(file, new JsonWriterOptions { Indented = true });
        WriteJob(json, report, day);
    }

    private static void WriteSettings(string folder, SettingsRegister settings)
    {
        string products = Path.Combine(folder, "products");
        Directory.CreateDirectory(products);
        foreach ((SettingsItem item, Entry.SettingsChanged document) in settings.Documents)
        {
            string path = item.Kind == SettingsItem.Shop
                ? Path.Combine(folder, "shop.json")
                : Path.Combine(products, $"{item.Id}-r{item.Revision}.json");
            File.WriteAllText(path, document.Document, Utf8);
        }
    }

    private static void WriteReadings(string path, IEnumerable<(Entry.Reading Reading, DateTimeOffset At)> readings)
    {
        using var csv = new StreamWriter(path, append: false, Utf8);
        csv.Write("time,bay,probe,air_c,humidity_pct,panel_c,received_at,sequence,clock\n");
        foreach ((Entry.Reading reading, DateTimeOffset at) in readings)
        {
            string[] cells =
            [
                Exact(reading.MeasuredAt ?? at), reading.Bay, reading.Probe,
                Exact(reading.AirC), Exact(reading.HumidityPct), Exact(reading.PanelC), Exact(at),
                reading.Sequence?.ToString(CultureInfo.InvariantCulture) ?? "", reading.MeasuredAt is null ? ReadingCells.NoClock : "",
            ];
            csv.Write(string.Join(',', cells) + "\n"); // ids and numbers: nothing in them needs quotes
        }
    }

    private static void WriteJob(Utf8JsonWriter json, JobReport report, LivedDay? day)
    {
        json.WriteStartObject();
        WriteCar(json, day is null ? report.Job : report.Job with { Visit = day.OpenedWith }, report.Told);
        WriteLearnt(json, report);
        if (day is not null)
        {
            WriteDay(json, day);
        }

        json.WriteEndObject();
    }

    private static void WriteCar(Utf8JsonWriter json, Job job, IEnumerable<Tap> taps)
    {
        json.WriteString("job", job.Id);
        json.WriteString("bay", job.Bay);
        WriteKnown(json, "car", job.Car);
        WriteKnown(json, "promisedAt", Exact(job.PromisedAt));
        WriteVisit(json, job.Visit);
        json.WriteArray("surfaces", job.Surfaces, s => WriteSurface(json, s));
        json.WriteArray("taps", taps, t => WriteTap(json, t));
    }

    private static void WriteVisit(Utf8JsonWriter json, Visit? visit)
    {
        WriteKnown(json, "arrivesAt", Exact(visit?.ArrivesAt));
        WriteKnown(json, "arrivesAtC", visit?.ArrivesAtC);
        WriteKnown(json, "plannedAt", Exact(visit?.PlannedAt));
    }

    private static void WriteWork(Utf8JsonWriter json, PlannedWork work)
    {
        json.WriteString("id", work.Id);
        json.WriteString("bay", work.Bay);
        json.WriteString("work", WireName<HarmfulWork>.Of(work.Work));
        json.WriteString("from", Exact(work.From));
        json.WriteString("to", Exact(work.To));
    }

    /// <summary>The other cars that were in the shop, whose coats and lamps the bays knew of, and what happened after which reading.</summary>
    private static void WriteDay(Utf8JsonWriter json, LivedDay day)
    {
        json.WriteStartObject(RecordedOfJob.Key);
        json.WriteString("openedAt", Exact(day.OpenedAt));
        WriteKnown(json, "endedAt", Exact(day.EndedAt));
        json.WriteArray("beside", day.Beside, j => WriteCar(json, j.Job, j.Taps));
        json.WriteArray("works", day.Works, w => WriteWork(json, w));
        json.WriteArray("visits", day.Visits, v => WriteVisit(json, v));
        json.WriteArray("order", day.Order, e =>
        {
            json.WriteNumber("readings", e.Readings);
            json.WriteString("now", Exact(e.Now));
            json.WriteString("at", Exact(e.At));
            json.WriteString("did", WireName<Recorded>.Of(e.Did));
            json.WriteNumber("job", e.Job);
            if (e.Tap is { } tap)
            {
                json.WriteNumber("tap", tap);
            }

            if (e.Plan is { } plan)
            {
                json.WriteNumber("plan", plan);
            }
        });
        json.WriteEndObject();
    }

    /// <summary>What other cars taught is in no file of this one, but its coats were begun with it; with nothing where nothing more is said.</summary>
    private static void WriteLearnt(Utf8JsonWriter json, JobReport report) =>
        json.WriteArray(LearntOfJob.Key, report.Surfaces.SelectMany(s => s.Coats).Where(c => c.Coat.EndedAt is null), coat =>
        {
            json.WriteString("surface", coat.Coat.Surface.Id);
            json.WriteNumber("layer", coat.Coat.Layer);
            json.WriteNumber("section", coat.Coat.Section);
            WriteKnown(json, "flash", coat.BegunWith.Flash);
            WriteKnown(json, "keepDry", coat.BegunWith.KeepDry);
        });

    private static void WriteKnown(Utf8JsonWriter json, string name, LearntEffect? effect)
    {
        if (effect is not null)
        {
            json.WriteStartObject(name);
            json.WriteNumber("lnFactor", effect.Mean);
            json.WriteNumber("lnVariance", effect.Variance);
            json.WriteNumber("here", effect.Here);
            json.WriteNumber("everywhere", effect.Everywhere);
            json.WriteEndObject();
        }
    }

    private static void WriteSurface(Utf8JsonWriter json, Surface surface)
    {
        json.WriteString("surface", surface.Id);
        json.WriteString("material", WireName<Material>.Of(surface.Material));
        WriteKnown(json, "over", surface.Over is { } over ? WireName<Material>.Of(over) : null);
        json.WriteString("place", WireName<Place>.Of(surface.Place));
        if (surface.Then is null)
        {
            WriteProduct(json, surface.Products().Single());
        }
        else
        {
            json.WriteArray("system", surface.Products(), p => WriteProduct(json, p));
        }

        json.WriteNumber("sections", surface.Sections);
    }

    private static void WriteProduct(Utf8JsonWriter json, ProductLayers product)
    {
        json.WriteString("product", product.Product);
        json.WriteNumber("revision", product.Revision);
        json.WriteNumber("layers", product.Layers);
    }

    private static void WriteTap(Utf8JsonWriter json, Tap tap)
    {
        WriteKnown(json, "id", tap.Id);
        json.WriteString("at", Exact(tap.At));
        json.WriteString("reportedAt", Exact(tap.ReportedAt));
        WriteKnown(json, "surface", tap.Surface);
        json.WriteString("did", WireName<Did>.Of(tap.Did));
        WriteKnown(json, "layer", tap.Layer);
        WriteKnown(json, "section", tap.Section);
        WriteKnown(json, "startedAt", Exact(tap.How is How.Wiped or How.PolishedOff ? null : tap.StartedAt)); // journals from before it was refused there
        WriteKnown(json, "panelC", tap.PanelC);
        WriteKnown(json, "found", tap.Found is { } found ? WireName<Found>.Of(found) : null);
        WriteKnown(json, "how", tap.How is { } how ? WireName<How>.Of(how) : null);
        WriteKnown(json, "toBay", tap.ToBay);
        WriteKnown(json, "by", tap.By);
        WriteKnown(json, "note", tap.Note);
        WriteKnown(json, "corrects", tap.Corrects);
        WriteKnown(json, "promisedAt", Exact(tap.PromisedAt));
        WriteKnown(json, "batch", tap.Batch);
    }

    private static void WriteKnown(Utf8JsonWriter json, string name, string? text)
    {
        if (text is not null)
        {
            json.WriteString(name, text);
        }
    }

    private static void WriteKnown(Utf8JsonWriter json, string name, double? number)
    {
        if (number is { } known)
        {
            json.WriteNumber(name, known);
        }
    }

    private static string? Exact(DateTimeOffset? instant) => instant is { } at ? Exact(at) : null;

    private static string Exact(DateTimeOffset instant) =>
        instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", CultureInfo.InvariantCulture);

    private static string Exact(double? number) => number?.ToString("R", CultureInfo.InvariantCulture) ?? "";
}
