namespace CureWatch.Service.Demo;

/// <summary>Noise that is the same in every run.</summary>
internal static class Noise
{
    /// <summary>FNV-1a over the name, then the finisher of SplitMix64. Source (law): public-domain mixing functions.</summary>
    /// <param name="name">Of whom.</param>
    /// <param name="number">Which of its numbers.</param>
    /// <returns>A number from −1 up to 1, each as likely as any other.</returns>
    public static double At(string name, int number)
    {
        ulong mixed = 0xCBF29CE484222325;
        foreach (char c in name)
        {
            mixed = (mixed ^ c) * 0x100000001B3;
        }

        mixed += (ulong)(uint)number * 0x9E3779B97F4A7C15;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        mixed ^= mixed >> 31;
        return ((mixed >> 11) * (2.0 / (1UL << 53))) - 1;
    }
}
