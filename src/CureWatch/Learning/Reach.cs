namespace CureWatch.Learning;

/// <summary>How far taps are believed against a sheet: beyond it they say more of the product, its batch or who taps than of the stage.</summary>
/// <param name="Least">The least part of the sheet's time [1].</param>
/// <param name="Most">The most [1].</param>
/// <param name="FollowsSlower">Whether a slower stage is followed beyond that all the same: where it only makes people wait.</param>
public readonly record struct Reach(double Least, double Most, bool FollowsSlower)
{
    /// <summary>Whether what was taught agrees with the sheet.</summary>
    /// <param name="effect">What was taught.</param>
    /// <returns>False where somebody should look into it.</returns>
    public bool Holds(LearntEffect effect) => effect.Factor >= Least && effect.Factor <= Most;

    /// <summary>What is followed of what was taught.</summary>
    /// <param name="effect">What was taught.</param>
    /// <returns>The same, or its nearest within reach; no surer than it was.</returns>
    public LearntEffect Within(LearntEffect effect) => effect with
    {
        Mean = Math.Clamp(effect.Mean, Math.Log(Least), FollowsSlower ? double.PositiveInfinity : Math.Log(Most)),
    };
}
