using System.Collections.Immutable;
using System.Runtime.InteropServices;
using CureWatch.Readings;

namespace CureWatch.Forecasting;

/// <summary>How forecasts of one lead have turned out, and what the next one may be trusted to.</summary>
/// <param name="Lead">How far ahead they were [h], 1 or more.</param>
/// <param name="Told">The newest of them, the oldest first; more than count, so that one more is one write.</param>
/// <param name="Sizes">Their errors without their signs, the smallest first: a bay asks for two of three hundred at every lead, each hour.</param>
/// <param name="Miss80">The share of misses aimed at by the 80 % band [1].</param>
/// <param name="Miss90">The same for the 90 % band.</param>
/// <remarks>
/// Equation: half-width = the ⌈(n + 1)(1 − α)⌉-th smallest |error|; after each, α ← α + γ (aim − missed). Source (law): split-conformal
/// prediction, with the adaptive level of Gibbs and Candès 2021, arXiv 2106.00170. The share of persistence that is mixed in is the one that
/// would have done best, drawn towards none as long as few have turned out. Source (law): the least squares of Σ (a − w d)².
/// Edges: the first forty share their place with ten errors that a bay nobody knows is assumed to make.
/// </remarks>
public sealed record LeadRecord(int Lead, Trail<Matured> Told, ImmutableArray<double> Sizes, double Miss80, double Miss90)
{
    private const int Most = 300;

    /// <summary>How many are held before those that count no longer are let go of.</summary>
    private const int MostHeld = 500;
    private const int Known = 40;
    /// <summary>
    /// Of a fortnight's forecasts a day ahead only a dozen are independent, and that many are kept too narrow: for the 80 % band a twentieth fewer misses are
    /// aimed at. Source (choice).
    /// </summary>
    private const double Aim80 = 0.19, Aim90 = 0.1;

    /// <summary>
    /// How far one miss moves the level [1]. Source (choice): of the 80 % band tried on invented fortnights of offices, weather and waves (0.02 to 0.08), by 0.02 a weekend
    /// was over before the band a day ahead had heard of it. The 90 % band, on which windows rest, is slower: a calm week must not make it narrow.
    /// </summary>
    private const double MostLearning80 = 0.06, Learning90 = 0.02;

    /// <summary>
    /// From this lead on [h] the level moves the less the longer it is. Source (choice): a miss is heard of a lead later, and all those on the way move the level on
    /// as if it had not moved yet. By as much an hour, 80 % bands of invented years held 76, 73 and 70 % at 36, 48 and 72 h; so they hold 79 %.
    /// </summary>
    private const double PromptlyHeard = 24;
    private const double LeastMiss = -0.5, MostMiss = 0.9;

    /// <summary>Where more than every error was too small a band, how fast it grows beyond the greatest [1]. Source (choice).</summary>
    private const double Stretch = 2;

    /// <summary>Forecasts whose errors follow each other within the lead are as good as one; so many of those hold the share back [1]. Source (choice).</summary>
    private const double DoubtfulLeads = 4;

    /// <summary>|z| of the normal law at 5, 15 … 95 % [1]. Source (law).</summary>
    private static readonly ImmutableArray<double> HalfNormal =
        [0.0627, 0.1891, 0.3186, 0.4538, 0.5978, 0.7554, 0.9346, 1.1503, 1.4395, 1.9600];

    /// <summary>A lead nothing is known of.</summary>
    /// <param name="lead">How far ahead [h].</param>
    /// <returns>The record.</returns>
    public static LeadRecord New(int lead) => new(lead, new Trail<Matured>(), [], Aim80, Aim90);

    /// <summary>The place of the oldest that counts.</summary>
    public int First => Math.Max(0, Told.Count - Most);

    /// <summary>What the next forecast may be trusted to.</summary>
    /// <param name="assumedDeviation">Standard deviation assumed where nothing is known.</param>
    /// <returns>How far either side of the likely value the truth lies in 80 and in 90 % of the cases, and the share of persistence.</returns>
    public LeadOutlook Promise(double assumedDeviation)
    {
        ImmutableArray<double> sizes = Sizes.Length < Known ? [.. Sizes.Concat(HalfNormal.Select(z => z * assumedDeviation)).Order()] : Sizes;
        return new LeadOutlook(Lead, PersistenceShare, WidthFor(Miss80, sizes), WidthFor(Miss90, sizes));
    }

    /// <summary>The share of persistence to mix in [1], 0 to 1.</summary>
    private double PersistenceShare
    {
        get
        {
            double product = 0, square = 0;
            for (int i = First; i < Told.Count;)
            {
                ReadOnlySpan<Matured> together = Told.From(i);
                foreach (ref readonly Matured m in together)
                {
                    product += m.ModelError * m.Difference;
                    square += m.Difference * m.Difference;
                }

                i += together.Length;
            }

            double doubt = DoubtfulLeads * Lead / Math.Max(1, Told.Count - First);
            return square > 0 ? Math.Clamp(product / (square * (1 + doubt)), 0, 1) : 0;
        }
    }

    /// <summary>Takes in how a forecast turned out.</summary>
    /// <param name="matured">The forecast.</param>
    /// <param name="of80">The half-width it was given for 80 %.</param>
    /// <param name="of90">The half-width it was given for 90 %.</param>
    /// <returns>The record after it.</returns>
    public LeadRecord With(Matured matured, double of80, double of90)
    {
        double error = Math.Abs(matured.Error);
        double? leaving = Told.Count >= Most ? Math.Abs(Told[First].Error) : null;
        return new LeadRecord(
            Lead,
            (Told.Count < MostHeld ? Told : Counted()).Append(matured),
            Sorted(leaving, error),
            Adapted(Miss80, Aim80, MostLearning80 * Math.Min(1, PromptlyHeard / Lead), error > of80),
            Adapted(Miss90, Aim90, Learning90, error > of90));
    }

    private Trail<Matured> Counted()
    {
        var counted = new Trail<Matured>();
        for (int i = First; i < Told.Count; i++)
        {
            counted = counted.Append(Told[i]);
        }

        return counted;
    }

    private ImmutableArray<double> Sorted(double? leaving, double coming)
    {
        int place = PlaceOf(coming), left = leaving is { } size ? PlaceOf(size) : Sizes.Length;
        double[] sorted = GC.AllocateUninitializedArray<double>(leaving is null ? Sizes.Length + 1 : Sizes.Length);
        Sizes.CopyTo(sorted);
        if (left < place)
        {
            sorted.AsSpan((left + 1)..place).CopyTo(sorted.AsSpan(left));
            sorted[place - 1] = coming;
        }
        else
        {
            sorted.AsSpan(place..left).CopyTo(sorted.AsSpan(place + 1));
            sorted[place] = coming;
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(sorted);
    }

    private int PlaceOf(double size) => Sizes.BinarySearch(size) is var place && place < 0 ? ~place : place;

    private static double Adapted(double miss, double aim, double learning, bool missed) =>
        Math.Clamp(miss + (learning * (aim - (missed ? 1 : 0))), LeastMiss, MostMiss);

    private static double WidthFor(double miss, ImmutableArray<double> sizes)
    {
        int place = Math.Clamp((int)Math.Ceiling((sizes.Length + 1) * (1 - miss)), 1, sizes.Length);
        return sizes[place - 1] * (1 + (Stretch * Math.Max(0, -miss)));
    }
}

/// <summary>A forecast that turned out.</summary>
/// <param name="ModelError">What happened, less what the model said without persistence.</param>
/// <param name="Difference">What persistence said, less what the model said.</param>
/// <param name="Error">What happened, less what was forecast.</param>
/// <remarks>The default is a forecast that was right.</remarks>
public readonly record struct Matured(double ModelError, double Difference, double Error);
