using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>A shop with probes of every kind and a car that is being coated, into which what is taken is folded.</summary>
internal static class FuzzShop
{
    public const string Document = """
        { "shop": "s", "timeZone": "Europe/Dublin", "bays": [
          { "bay": "bay-1", "probes": [
            { "probe": "air", "measures": "air" },
            { "probe": "bonnet", "measures": "panel", "unit": "F", "on": { "material": "steel" } },
            { "probe": "mapped", "measures": "air", "topic": "t/mapped", "unit": "F",
              "fields": { "temperature": "/a/0/t", "humidity": "/a/1", "time": "/ts", "sequence": "/n" } },
            { "probe": "odd", "measures": "outdoor", "topic": "t/odd", "fields": { "temperature": "/x~1y/0", "humidity": "/x~1y/0/h", "time": "" } },
            { "probe": "one", "measures": "panel", "topic": "t/shared", "fields": { "temperature": "/one/t", "time": "/at" } },
            { "probe": "two", "measures": "panel", "topic": "t/shared", "fields": { "temperature": "/two/t", "time": "/at", "sequence": "/n" } }
          ] },
          { "bay": "bay-2" } ] }
        """;

    public const string Job = """
        { "job": "job-1", "bay": "bay-1", "car": "grey", "promisedAt": "2026-03-03T10:30:00Z", "surfaces": [
            { "surface": "bonnet", "material": "steel", "product": "paint-oxide-demo", "layers": 2, "sections": 2 },
            { "surface": "bumper", "material": "film", "over": "plastic", "product": "film-clear-demo" } ],
          "taps": [ { "id": "t0", "at": "2026-03-02T07:30:00Z", "surface": "bonnet", "layer": 1, "section": 1, "did": "applied", "by": "Robin" } ] }
        """;

    public static DateTimeOffset Now { get; } = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    /// <summary>The shop before anything that is tried on it.</summary>
    public static Register Register { get; } = Open();

    /// <summary>What its topics are about.</summary>
    public static ImmutableArray<ImmutableArray<ReadingDecoder>> Topics { get; } =
        TopicsOf(TopicMap.Of(Register.Settings.Shop!));

    /// <summary>Takes entries in, and looks at the shop as everybody does who wants to know how it stands.</summary>
    public static Register Take(IEnumerable<Entry> entries, DateTimeOffset at)
    {
        Register after = Register;
        foreach (Entry entry in entries)
        {
            after = RegisterFold.Take(after, after.Sequence + 1, at, entry).After;
        }

        foreach ((_, OutputDocument? document) in OutputDocuments.OfBay(after.Shop!, "bay-1").Concat(OutputDocuments.OfCar(after.Shop!, "job-1", new BayQueues(after.Shop!))))
        {
            _ = document is null ? default : JsonElement.Parse(document.Bytes);
        }

        return after;
    }

    private static ImmutableArray<ImmutableArray<ReadingDecoder>> TopicsOf(TopicMap map) =>
        [.. map.OwnTopics.Order(StringComparer.Ordinal).Select(t => ((TopicMeaning.Readings)map.Find(t)).Probes)];

    private static Register Open()
    {
        Entry[] settings =
        [
            new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "s", 0), "", Document, SettingsOrigin.File),
            .. Shipped.Products.Select(OfProduct),
        ];
        Register register = settings.Aggregate(Register.Blank, Taken);
        Decision job = Requests.OnJobStart(register, new Arrival.JobStart("job", Encoding.UTF8.GetBytes(Job)), Now);
        return job.Entries.Aggregate(register, Taken);
    }

    private static Register Taken(Register register, Entry entry) => RegisterFold.Take(register, register.Sequence + 1, Now, entry).After;

    private static Entry OfProduct(byte[] sheet)
    {
        var read = ProductFile.Parse("product", sheet, new Faults())!;
        return new Entry.SettingsChanged(new SettingsItem(SettingsItem.Product, read.Product, read.Revision), "", Encoding.UTF8.GetString(sheet), SettingsOrigin.File);
    }
}
