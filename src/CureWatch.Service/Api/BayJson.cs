using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Units;

namespace CureWatch.Service.Api;

/// <summary>A bay as JSON. Each part writes into an object that is open.</summary>
internal static class BayJson
{
    public static void Write(Utf8JsonWriter json, BayReport bay)
    {
        json.WriteString("bay", bay.Plan.Bay);
        json.WriteInstant("at", bay.At);
        json.WriteString("airspace", bay.Plan.Airspace);
        json.WriteTexts("equipment", bay.Plan.Equipment.Select(WireName<Equipment>.Of));
        WriteClimateOrNull(json, bay.Airs[0]);
        json.WriteArray("places", bay.Airs.Skip(1), air =>
        {
            json.WriteString("place", WireName<Place>.Of(air.Place));
            WriteClimateOrNull(json, air);
        });
        json.WriteArray("probes", bay.Probes, p => WriteProbe(json, p, bay.Zone));
    }

    /// <summary>The keys of <c>climate --json</c>, when the air was measured, and whether the panel is measured or reckoned from the air.</summary>
    public static void WriteClimate(Utf8JsonWriter json, AirReport air)
    {
        json.WriteInstant("at", air.MeasuredAt);
        ClimateJson.WriteKeys(json, air.Climate!, air.Climate!.Judge(SheetLimits.UsualSpreadMinK), air.Doubt);
        json.WriteBoolean("panelMeasured", air.IsPanelMeasured);
    }

    public static void WriteClimateOrNull(Utf8JsonWriter json, AirReport air)
    {
        if (air.Climate is null)
        {
            json.WriteNull("climate");
            return;
        }

        json.WriteStartObject("climate");
        WriteClimate(json, air);
        json.WriteEndObject();
    }

    private static void WriteProbe(Utf8JsonWriter json, ProbeReport probe, TimeZoneInfo zone)
    {
        json.WriteString("probe", probe.Mount.Probe.Id);
        json.WriteString("measures", WireName<Measures>.Of(probe.Mount.Probe.Measures));
        json.WriteString("material", probe.Mount.Material is { } material ? WireName<Material>.Of(material) : null);
        json.WriteString("place", WireName<Place>.Of(probe.Mount.Place));
        json.WriteString("state", WireName<ProbeState>.Of(probe.State));
        json.WriteInstant("heardAt", probe.HeardAt);
        json.WriteRounded("airC", Degrees(probe.Air));
        json.WriteRounded("humidityPct", probe.Air?.HumidityPct);
        json.WriteRounded("panelC", Degrees(probe.Panel));
        json.WriteRounded("clockOffsetSeconds", probe.Clock.OffsetSeconds);
        json.WriteRounded("clockDriftSecondsPerDay", probe.Clock.DriftSecondsPerDay);
        WriteBelief(json, probe);
        WriteDrift(json, probe, zone);
    }

    /// <summary>Whether what a probe says is believed, and else why not.</summary>
    public static void WriteBelief(Utf8JsonWriter json, ProbeReport probe)
    {
        json.WriteStartObject("belief");
        json.WriteBoolean("believed", probe is { State: ProbeState.Heard, Refused: null });
        json.WriteString("reason", probe.Refused is { } refused ? WireName<Disbelief>.Of(refused.Why) : null);
        json.WriteInstant("since", probe.Refused?.Since);
        json.WriteString("text", probe.Refused is { } why ? BeliefWords.Of(why.Why) : null);
        json.WriteEndObject();
    }

    private static void WriteDrift(Utf8JsonWriter json, ProbeReport probe, TimeZoneInfo zone)
    {
        TwinDifference? beside = probe.Beside;
        json.WriteStartObject("beside");
        json.WriteTexts("twins", probe.Twins.Select(t => t.Id));
        json.WriteRounded("temperatureK", beside?.Kelvins);
        json.WriteRounded("temperatureUncertaintyK", beside?.StandardKelvins);
        json.WriteInstant("temperatureSince", beside?.KelvinsSince);
        json.WriteRounded("humidityPct", beside?.HumidityPct);
        json.WriteRounded("humidityUncertaintyPct", beside?.StandardHumidityPct);
        json.WriteInstant("humiditySince", beside?.HumiditySince);
        json.WriteString("text", DriftWords.Of(probe, zone));
        json.WriteEndObject();
    }

    private static double? Degrees(Sample? sample) => sample is { } s ? Celsius.FromKelvins(s.Kelvins).Degrees : null;
}
