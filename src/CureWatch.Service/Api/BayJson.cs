using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
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
        json.WriteStartArray("equipment");
        foreach (Equipment equipment in bay.Plan.Equipment)
        {
            json.WriteStringValue(WireName<Equipment>.Of(equipment));
        }

        json.WriteEndArray();
        WriteClimateOrNull(json, bay.Airs[0]);
        json.WriteArray("places", bay.Airs.Skip(1), air =>
        {
            json.WriteString("place", WireName<Place>.Of(air.Place));
            WriteClimateOrNull(json, air);
        });
        json.WriteArray("probes", bay.Probes, p => WriteProbe(json, p));
    }

    /// <summary>The keys of <c>climate --json</c>, when the air was measured, and whether the panel is measured or taken as the air.</summary>
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

    private static void WriteProbe(Utf8JsonWriter json, ProbeReport probe)
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
    }

    private static double? Degrees(Sample? sample) => sample is { } s ? Celsius.FromKelvins(s.Kelvins).Degrees : null;
}
