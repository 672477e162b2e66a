using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Service.Settings;

/// <summary>A probe as people write it.</summary>
internal sealed record ProbeOfBay(ProbeMount Mount, ProbeWiring Wiring)
{
    private static readonly TimeSpan UsualEvery = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LongestEvery = TimeSpan.FromHours(6);
    private static readonly NumberRange OffsetK = NumberRange.From(-20, 20, "K");
    private static readonly NumberRange OffsetPct = NumberRange.From(-50, 50, "% RH");
    private static readonly NumberRange AccuracyK = NumberRange.Between(0, ProbeAccuracy.MostK, "K");
    private static readonly NumberRange AccuracyPct = NumberRange.Between(0, ProbeAccuracy.MostHumidityPct, "% RH");

    /// <returns>The probes; one with a fault may be missing.</returns>
    public static ImmutableArray<ProbeOfBay> ReadAll(JsonCursor probes, string shop, string bay, TimeZoneInfo zone)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        var heard = new HashSet<(Measures, string Topic, string? Temperature)>();
        return [.. probes.Items().Select(p => Read(p, shop, bay, zone, ids, heard)).OfType<ProbeOfBay>()];
    }

    private static ProbeOfBay? Read(
        JsonCursor place, string shop, string bay, TimeZoneInfo zone, HashSet<string> ids, HashSet<(Measures, string Topic, string? Temperature)> heard)
    {
        _ = place.Keys(["probe", "measures"], "topic", "fields", "unit", "offset", "calibrations", "accuracy", "every", "on");
        string? id = place["probe"].Id();
        if (id is not null && !ids.Add(id))
        {
            place["probe"].Refuse("each probe of a bay once");
        }

        Measures? measures = place["measures"].OneOf<Measures>();
        JsonCursor offset = place["offset"], accuracy = place["accuracy"];
        _ = offset.Keys([], "temperatureK", "humidityPct");
        _ = accuracy.Keys([], "temperatureK", "humidityPct");
        double offsetK = offset["temperatureK"].Number(OffsetK) ?? 0;
        double offsetPct = offset["humidityPct"].Number(OffsetPct) ?? 0;
        ImmutableArray<Calibration> calibrations = CalibrationsOfProbe.Read(place["calibrations"], (offsetK, offsetPct), zone, OffsetK, OffsetPct);
        double usualK = measures == Measures.Panel ? ProbeAccuracy.UsualPanelK : ProbeAccuracy.UsualAirK;
        double accuracyK = accuracy["temperatureK"].Number(AccuracyK) ?? usualK;
        double accuracyPct = accuracy["humidityPct"].Number(AccuracyPct) ?? ProbeAccuracy.UsualHumidityPct;
        TimeSpan every = place["every"].Duration(TimeSpan.FromSeconds(1), LongestEvery) ?? UsualEvery;

        (Material? material, Place where, string? surface) = On(place["on"], measures);
        ProbeWiring wiring = WiringOfProbe.Read(place, shop, bay, id ?? "", measures);
        if (measures is { } what && !heard.Add((what, wiring.Topic, wiring.Fields?.Temperature)))
        {
            place["topic"].Refuse(wiring.Topic, "what no other probe of the bay reads: one sensor read twice is no twin");
        }

        return id is null || measures is null
            ? null
            : new ProbeOfBay(
                new ProbeMount(
                    new Probe(id, measures.Value, offsetK, offsetPct, accuracyK, accuracyPct, every) { Calibrations = calibrations },
                    material,
                    where,
                    surface),
                wiring);
    }

    private static (Material? Material, Place Place, string? Surface) On(JsonCursor on, Measures? measures)
    {
        _ = on.Keys([], "material", "place", "surface");
        if (measures is Measures.Air or Measures.Outdoor && !on["material"].IsAbsent)
        {
            on["material"].Refuse("a material under a panel probe only");
        }

        if (measures is Measures.Air or Measures.Outdoor && !on["surface"].IsAbsent)
        {
            on["surface"].Refuse("a surface under a panel probe only");
        }

        return (on["material"].OneOf<Material>(), on["place"].OneOf<Place>() ?? Place.Outside, on["surface"].Id());
    }
}
