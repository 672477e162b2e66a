using System.Text;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary><c>shop.json</c>.</summary>
internal sealed class ShopTarget() : DocumentTarget<ShopSettings>("shop")
{
    public override IEnumerable<byte[]> Seeds => [Shipped.File("shop.json"), Shipped.File("demo", "shop.json"), .. Texts.Select(Encoding.UTF8.GetBytes)];

    protected override (long Fixed, long PerByte) Allowance => (8_000_000, 4_000);

    private static string[] Texts =>
    [
        FuzzShop.Document,
        """{"shop":"s","timeZone":"UTC","bays":[{"bay":"b","probes":[{"probe":"p","measures":"air"}]}]}""",
        """
        {"shop":"s","timeZone":"Europe/Dublin","finishing":"01:15:00",
         "openHours":{"monday":[{"from":"08:00","to":"12:00"},{"from":"13:00","to":"18:00"}],"saturday":{"from":"09:30","to":"24:00"},"sunday":[]},
         "bays":[{"bay":"b","pressureHpa":995.5,"airspace":"hall","equipment":["fixed-heating","lamp","extraction"],"probes":[
           {"probe":"p","measures":"panel","offset":{"temperatureK":-0.2,"humidityPct":1},"accuracy":{"temperatureK":0.3,"humidityPct":2},
            "every":"00:00:30","on":{"material":"aluminium","place":"off-car"}}]}]}
        """,
    ];

    protected override ShopSettings? Read(byte[] input, Faults faults) => ShopFile.Parse(Name, input, faults);

    protected override void Check(ShopSettings read, byte[] input)
    {
        ShopPlan plan = read.Plan;
        BrokenPromiseException.Unless(Ids.Allows(plan.Shop) && plan.Bays.Length > 0 && plan.Bays.All(b => Ids.Allows(b.Bay)), "an id that is none");
        BrokenPromiseException.Unless(plan.Bays.DistinctBy(b => b.Bay).Count() == plan.Bays.Length, "a bay twice");
        BrokenPromiseException.Unless(plan.Bays.All(b => b.PressureHpa is >= 500 and <= 1100), "a pressure beyond its range");
        BrokenPromiseException.Unless(plan.Finishing >= TimeSpan.Zero && plan.Finishing <= TimeSpan.FromDays(7), "a finishing time beyond its range");
        foreach (ProbeMount mount in plan.Bays.SelectMany(b => b.Probes))
        {
            BrokenPromiseException.Unless(
                Ids.Allows(mount.Probe.Id)
                && mount.Probe is { OffsetTemperatureK: >= -20 and <= 20, OffsetHumidityPct: >= -50 and <= 50 }
                && mount.Probe is { AccuracyTemperatureK: > 0 and < 20, AccuracyHumidityPct: > 0 and < 50 }
                && mount.Probe.Every >= TimeSpan.FromSeconds(1) && mount.Probe.Every <= TimeSpan.FromHours(6),
                $"probe {mount.Probe} beyond its ranges");
        }

        BrokenPromiseException.Unless(read.Wiring.Length == plan.Bays.Sum(b => b.Probes.Length), "a probe without a topic");
        Open(read);
    }

    /// <summary>The shop opens, hears a message on every topic, and says when its doors open next.</summary>
    private static void Open(ShopSettings read)
    {
        TopicMap map = TopicMap.Of(read);
        foreach (string topic in map.OwnTopics)
        {
            foreach (ReadingDecoder probe in ((TopicMeaning.Readings)map.Find(topic)).Probes)
            {
                _ = probe.Decode("""{"temperatureC":20,"humidityPct":50}"""u8, isRetained: false);
            }
        }

        Shop shop = Shop.Opening(read.Plan, [], FuzzShop.Now);
        shop = ShopFold.Take(shop, new Message.ClockReached(FuzzShop.Now.AddHours(1))).Shop;
        BrokenPromiseException.Unless(!(read.Plan.Hours.AfterWork(FuzzShop.Now, read.Plan.Finishing) < FuzzShop.Now), "work is done before it was begun");
        BrokenPromiseException.Unless(OutputDocuments.Climates(shop).Count > 0, "a shop without an output");
    }
}
