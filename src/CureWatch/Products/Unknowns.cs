namespace CureWatch.Products;

/// <summary>Where the unknowns of a stage's fit stand: ln D of each milestone, then E, then m where it is fitted.</summary>
/// <param name="Milestones">How many times D there are.</param>
/// <param name="FitsExponent">False where the exponent is known.</param>
internal sealed record Unknowns(int Milestones, bool FitsExponent)
{
    /// <summary>The place of E.</summary>
    public int Energy => Milestones;

    /// <summary>The place of m; null where it is known.</summary>
    public int? Exponent => FitsExponent ? Milestones + 1 : null;

    /// <summary>Where each unknown must lie.</summary>
    public Bound[] Bounds =>
        [.. Enumerable.Repeat(Bound.None, Milestones), Priors.EnergyBound, .. FitsExponent ? [Priors.ExponentBound] : Array.Empty<Bound>()];

    private int Count => Milestones + (FitsExponent ? 2 : 1);

    /// <summary>A row as an observation.</summary>
    /// <param name="row">The row.</param>
    /// <param name="milestone">The milestone whose time it gives.</param>
    /// <param name="priors">They hold the exponent where it is known.</param>
    /// <returns>The observation.</returns>
    public Observation Seen(TimedRow row, int milestone, Priors priors)
    {
        double[] factors = new double[Count];
        factors[milestone] = 1;
        factors[Energy] = row.Terms.X;
        if (Exponent is not int exponent)
        {
            return new Observation(factors, Math.Log(row.Hours) + (priors.Exponent * row.Terms.Y), row.Deviation);
        }

        factors[exponent] = -row.Terms.Y;
        return new Observation(factors, Math.Log(row.Hours), row.Deviation);
    }

    /// <summary>The priors as observations.</summary>
    /// <param name="priors">The priors.</param>
    /// <returns>One for each unknown that has a prior.</returns>
    public IEnumerable<Observation> Believed(Priors priors)
    {
        yield return new Observation(Only(Energy), priors.EnergyJmol, priors.EnergyDeviationJmol);
        if (Exponent is int exponent)
        {
            yield return new Observation(Only(exponent), priors.Exponent, priors.ExponentDeviation);
        }
    }

    /// <summary>Picks one milestone's covariance.</summary>
    /// <param name="milestone">The milestone.</param>
    /// <param name="all">Covariance of all unknowns.</param>
    /// <returns>The covariance of its ln D with E and m; 0 where m is known.</returns>
    public FitCovariance CovarianceOf(int milestone, double[,] all) =>
        new(
            all[milestone, milestone],
            all[Energy, Energy],
            Exponent is int m ? all[m, m] : 0,
            all[milestone, Energy],
            Exponent is int n ? all[milestone, n] : 0,
            Exponent is int o ? all[Energy, o] : 0);

    private double[] Only(int unknown)
    {
        double[] factors = new double[Count];
        factors[unknown] = 1;
        return factors;
    }
}
