using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>Reads what somebody would like to know the outcome of.</summary>
internal static class WhatIfQuestion
{
    private const int LongestLampMinutes = 240;

    private static readonly NumberRange AirC = NumberRange.From(-10, 45, "°C");
    private static readonly NumberRange HumidityPct = NumberRange.From(1, 99, "% RH");

    /// <returns>The hypothesis; null where it cannot be read. What is wrong with it is among the faults.</returns>
    public static Hypothesis? Read(string source, ReadOnlyMemory<byte> utf8, Shop shop, JobState job, Faults faults)
    {
        if (JsonFile.Parse(source, utf8.Span, faults) is not { } top)
        {
            return null;
        }

        _ = top.Keys([], "temperatureC", "temperatureF", "humidityPct", "surface", "lampMinutes", "product", "revision", "startAt", "promisedAt");
        string[] surfaces = [.. job.Job.Surfaces.Select(s => s.Id)];
        string? surface = top["surface"].String(surfaces.Contains, $"a surface of the job: {string.Join(", ", surfaces)}");
        int? minutes = top["lampMinutes"].Integer(1, LongestLampMinutes);
        DateTimeOffset? startAt = top["startAt"].Instant();
        if (startAt < shop.Now)
        {
            top["startAt"].Refuse($"not before now, {UtcText.Of(shop.Now)}");
        }

        (string Product, int Revision)? sheet = Sheet(top, shop);
        if (surface is null && top["surface"].IsAbsent && (minutes is not null || sheet is not null))
        {
            top["surface"].Refuse("the key surface, which lampMinutes and product need");
        }

        return new Hypothesis(top.Celsius("temperature", AirC), top["humidityPct"].Number(HumidityPct), startAt, top["promisedAt"].Instant())
        {
            Lamp = surface is not null && minutes is { } lit ? (surface, lit) : null,
            Sheet = surface is not null && sheet is { } other ? (surface, other.Product, other.Revision) : null,
        };
    }

    private static (string Product, int Revision)? Sheet(JsonCursor top, Shop shop)
    {
        string[] products = [.. shop.Laws.Keys.Select(l => l.Product).Distinct().Order(StringComparer.Ordinal)];
        string? product = top["product"].String(products.Contains, $"a product with a sheet: {string.Join(", ", products)}");
        int? revision = top["revision"].Integer(1, int.MaxValue);
        if (product is null)
        {
            if (revision is not null && top["product"].IsAbsent)
            {
                top["product"].Refuse("the key product, which revision needs");
            }

            return null;
        }

        int newest = shop.Laws.Keys.Where(l => l.Product == product).Max(l => l.Revision);
        if (revision is { } named && !shop.Laws.ContainsKey((product, named)))
        {
            top["revision"].Refuse($"a revision of {product} with a sheet, up to {newest}");
            return null;
        }

        return (product, revision ?? newest);
    }
}
