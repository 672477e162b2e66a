using System.Collections.Immutable;
using CureWatch.Products;
using CureWatch.Units;

namespace CureWatch.Service.Settings;

/// <summary>A product sheet as people write it: one JSON file a revision.</summary>
internal static class ProductFile
{
    public const int HighestRevision = 100_000;

    private const string SourceWhereSilent = "not stated";
    private const int LongestText = 500;

    /// <returns>The sheet, or null where the file holds a fault.</returns>
    public static ProductSheet? Read(string path, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Open(path, faults) is { } top && Sheet(top) is { } sheet && faults.Count == before ? sheet : null;
    }

    /// <summary>Reads a document that is already here.</summary>
    public static ProductSheet? Parse(string name, ReadOnlySpan<byte> utf8, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Parse(name, utf8, faults) is { } top && Sheet(top) is { } sheet && faults.Count == before ? sheet : null;
    }

    private static ProductSheet? Sheet(JsonCursor top)
    {
        if (!top.Keys(
            ["product", "revision", "kind", "stages"],
            "carrier", "name", "source", "reference", "limits", "lamp", "afterWetting", "cautions"))
        {
            return null;
        }

        string? product = top["product"].Id();
        int? revision = top["revision"].Integer(1, HighestRevision);
        ProductKind? kind = top["kind"].OneOf<ProductKind>();
        Carrier carrier = top["carrier"].OneOf<Carrier>() ?? Carrier.Solvent;
        string? name = top["name"].Text(LongestText) ?? product;
        string source = top["source"].Text(LongestText) ?? SourceWhereSilent;
        ReferenceClimate reference = Reference(top["reference"]);
        SheetLimits limits = LimitsOfSheet.Read(top["limits"]);
        ImmutableArray<SheetStage> stages = StagesOfSheet.Read(top["stages"]);
        ImmutableArray<LampBand> lamp = LampOfSheet.Read(top["lamp"], limits.HeatMaxC);
        AfterWetting afterWetting = top["afterWetting"].OneOf<AfterWetting>() ?? AfterWetting.Restart;
        ImmutableArray<string> cautions = [.. top["cautions"].Items().Select(c => c.Text(LongestText)).OfType<string>()];

        return product is null || revision is null || kind is null
            ? null
            : new ProductSheet(
                product, revision.Value, kind.Value, carrier, name ?? product, source,
                reference, limits, stages, lamp, afterWetting, cautions);
    }

    private static ReferenceClimate Reference(JsonCursor reference)
    {
        _ = reference.Keys([], [.. JsonCursor.DegreesOf("temperature"), "humidityPct"]);
        double? temperatureC = reference.Celsius("temperature", SheetRanges.ClimateC);
        double? humidityPct = reference["humidityPct"].Number(SheetRanges.ReferencePct);
        return new ReferenceClimate(
            temperatureC is { } t ? new Celsius(t) : ReferenceClimate.Usual.Temperature,
            humidityPct is { } h ? new RelativeHumidity(h) : ReferenceClimate.Usual.Humidity);
    }
}
