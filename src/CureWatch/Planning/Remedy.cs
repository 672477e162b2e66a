using CureWatch.Forecasting;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Something a bay can do about its climate, with the equipment it has.</summary>
/// <param name="Text">What to do, as one says it.</param>
/// <param name="Climate">What becomes of the climate by it.</param>
/// <param name="IsHeat">Whether it is to heat or to shut the doors, so that the cautions belong beside it.</param>
public sealed record Remedy(Sentence Text, ClimateHeld Climate, bool IsHeat)
{
    /// <summary>What it is done with: of several that only differ in how much, one is enough.</summary>
    public string Sort => Climate switch
    {
        { LeastAirKelvins: not null } => "heat",
        { AiredWith: not null } => "air",
        { MostHumidityPct: not null } => "dry",
        _ => "moisten",
    };
}

/// <summary>How much something that a bay can do would help.</summary>
/// <param name="Text">What to do.</param>
/// <param name="ChanceAfter">How likely it happens all the same if it is done from now on [1].</param>
/// <param name="IsHeat">Whether it is to heat or to shut the doors.</param>
public sealed record RemedyEffect(Sentence Text, double ChanceAfter, bool IsHeat)
{
    private const double WorthAShare = 0.7;
    private const double WorthAtLeast = 0.03;

    /// <summary>Whether it is worth doing: it takes away a third of the chance, and three in a hundred at least. Source (choice).</summary>
    /// <param name="chance">How likely it is if nobody does anything [1].</param>
    /// <returns>False for what cannot help any more.</returns>
    public bool HelpsAgainst(double chance) => ChanceAfter <= WorthAShare * chance && ChanceAfter <= chance - WorthAtLeast;
}
