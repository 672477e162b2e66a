namespace CureWatch.Fuzz.Targets;

/// <summary>An input for which the program does not keep what it promises.</summary>
internal sealed class BrokenPromiseException(string promise) : Exception(promise)
{
    /// <summary>Holds the program to a promise.</summary>
    public static void Unless(bool isKept, string promise)
    {
        if (!isKept)
        {
            throw new BrokenPromiseException(promise);
        }
    }
}
