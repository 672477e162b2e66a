using System.Collections.Immutable;
using CureWatch.Bays;

namespace CureWatch.Reports;

/// <summary>The promises of all cars that are here, the one most at risk first.</summary>
/// <remarks>
/// First by the chance to make it, what holds a car for a person counted as none, and so what is not known; among equals the sooner promise. Cars whose customer
/// was told no time come last, in the order they came.
/// </remarks>
public static class PromiseRanking
{
    /// <summary>Ranks reports.</summary>
    /// <param name="reports">The reports of the cars that are here, in the order they came.</param>
    /// <returns>The same in the order of their risk.</returns>
    public static ImmutableArray<PromiseReport> Of(IEnumerable<PromiseReport> reports) =>
        [.. reports.OrderBy(r => r.Outlook.Chance ?? (r.Outlook.IsUnknown ? 0 : 2)).ThenBy(r => r.Outlook.PromisedAt ?? DateTimeOffset.MaxValue)];
}
