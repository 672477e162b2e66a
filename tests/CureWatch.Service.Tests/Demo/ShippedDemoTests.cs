using System.Text;
using System.Text.Json;
using CureWatch.Readings;
using CureWatch.Service.Demo;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;
using Json.Schema;

namespace CureWatch.Service.Tests.Demo;

public class ShippedDemoTests
{
    private readonly Faults _faults = new();

    [Theory]
    [InlineData("shop.json", "shop")]
    [InlineData("blue-hatch.json", "job")]
    [InlineData("grey-estate.json", "job")]
    public void File_IsValidByItsSchema(string file, string schema)
    {
        JsonElement document = JsonElement.Parse(File.ReadAllText(Path.Combine(DemoDay.ShippedFolder, file)));

        EvaluationResults results = Shipped.Schema(schema).Evaluate(document, new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(results.IsValid, JsonSerializer.Serialize(results));
    }

    [Fact]
    public void Configuration_HoldsNoFault_AndKeepsSheetsOfItsOwn()
    {
        Configuration? configuration = Configuration.Read(DemoDay.ShippedFolder, _faults);

        Assert.Empty(_faults.All);
        Assert.Equal(
            Directory.GetFiles(Path.Combine(Shipped.Folder, "products")).Length, configuration!.Catalogue.Sheets.Length);
    }

    [Fact]
    public void Cars_FitTheShop()
    {
        Configuration configuration = Configuration.Read(DemoDay.ShippedFolder, _faults)!;

        foreach (string job in new[] { "blue-hatch", "grey-estate" })
        {
            Assert.NotNull(JobFile.Read(Path.Combine(DemoDay.ShippedFolder, $"{job}.json"), configuration, _faults));
        }

        Assert.Empty(_faults.All);
    }

    /// <summary>The probes of the simulation are those of the shop: same topics, same pace, same unit.</summary>
    [Fact]
    public void Probes_AreThoseOfTheShop()
    {
        ShopSettings shop = Configuration.Read(DemoDay.ShippedFolder, _faults)!.Shop;
        Dictionary<(string, string), Probe> probes =
            shop.Plan.Bays.SelectMany(b => b.Probes.Select(p => (b.Bay, p.Probe))).ToDictionary(p => (p.Bay, p.Probe.Id), p => p.Probe);

        Assert.Equal(
            shop.Wiring.Select(w => (w.Bay, w.Probe, w.Topic, w.Unit == TemperatureUnit.Fahrenheit)).Order(),
            DemoProbe.All.Select(p => (p.Bay, p.Id, p.Topic, p.Words == PayloadForm.WeatherPost)).Order());
        Assert.All(DemoProbe.All, p => Assert.Equal(probes[(p.Bay, p.Id)].Every, p.Every));
        Assert.All(DemoProbe.All, p => Assert.Equal(
            probes[(p.Bay, p.Id)].Measures,
            p.Of switch { Measured.Air1 or Measured.Air2 => Measures.Air, Measured.Yard => Measures.Outdoor, _ => Measures.Panel }));
    }

    [Fact]
    public void Payloads_AreWordedAsEachProbeWasBuilt()
    {
        Assert.Equal("""{"at":"2026-03-02T07:00:00Z","temperatureC":20.5,"humidityPct":48.2}""", Payload("air", 48.2));
        Assert.Equal("""{"at":"2026-03-02T07:00:00Z","temperatureC":20.5}""", Payload("bonnet", null));
        Assert.Equal("20.5", Payload("screen", null));
        Assert.Equal(
            """{"sent":"2026-03-02T07:00:00Z","outdoor":{"temperature":68.9,"humidity":48.2}}""", Payload("yard", 48.2));

        static string Payload(string probe, double? humidityPct) =>
            DemoProbe.All.First(p => p.Id == probe).PayloadOf(DemoDay.Start, new DemoSample(20.5, humidityPct));
    }

    [Fact]
    public void Payloads_AreUnderstoodByTheShop()
    {
        ShopSettings shop = Configuration.Read(DemoDay.ShippedFolder, _faults)!.Shop;
        foreach (DemoAct.Published act in new DemoDay(DemoDay.ShippedFolder).Acts().OfType<DemoAct.Published>().Take(12))
        {
            Probe probe = shop.Plan.Bays.Single(b => b.Bay == act.Probe.Bay).Probes.Single(p => p.Probe.Id == act.Probe.Id).Probe;
            ProbeWiring wiring = shop.Wiring.Single(w => w.Topic == act.Probe.Topic);

            byte[] payload = Encoding.UTF8.GetBytes(act.Payload);
            Entry.Reading reading = new ReadingDecoder(wiring, probe.Measures).Decode(payload, isRetained: false).Reading!;

            Assert.Equal(act.Sample.TemperatureC, (reading.AirC ?? reading.PanelC)!.Value, tolerance: 0.03); // 0.1 °F is 0.06 K
            Assert.Equal(act.Sample.HumidityPct, reading.HumidityPct);
            Assert.Equal(act.Probe.Words == PayloadForm.BareNumber ? null : act.At, reading.MeasuredAt);
        }
    }
}
