namespace CureWatch.Readings;

/// <summary>Who of several probes agrees with whom.</summary>
/// <remarks>
/// Where more than half of them lie within reach of one another, those are the majority, the median among them, and who lies beyond reach of too
/// many is the odd one out. Where there is no such half, of two that differ above all, nobody knows who is right.
/// </remarks>
public sealed class Accord
{
    private readonly bool[] _isOfTheMajority;
    private readonly bool[,] _agree;

    private Accord(bool[] isOfTheMajority, bool[,] agree, bool isUnanimous) =>
        (_isOfTheMajority, _agree, IsUnanimous, HasMajority) = (isOfTheMajority, agree, isUnanimous, Array.IndexOf(isOfTheMajority, true) >= 0);

    /// <summary>Whether nobody disagrees with anybody.</summary>
    public bool IsUnanimous { get; }

    /// <summary>Whether more than half agree with somebody among them.</summary>
    public bool HasMajority { get; }

    /// <summary>Compares what probes say of one thing at one instant.</summary>
    /// <param name="said">What each says.</param>
    /// <returns>The accord.</returns>
    public static Accord Of(ReadOnlySpan<Testimony> said)
    {
        int count = said.Length;
        var agree = new bool[count, count];
        var isOfTheMajority = new bool[count];
        bool isUnanimous = true;
        for (int i = 0; i < count; i++)
        {
            int friends = 0;
            for (int j = 0; j < count; j++)
            {
                agree[i, j] = j < i ? agree[j, i] : i == j || said[i].DistanceTo(said[j]) <= 1;
                friends += agree[i, j] ? 1 : 0;
            }

            isUnanimous &= friends == count;
            isOfTheMajority[i] = 2 * friends > count;
        }

        return new Accord(isOfTheMajority, agree, isUnanimous);
    }

    /// <summary>Whether a probe is the odd one out: a majority agrees, and not with it.</summary>
    /// <param name="index">Which.</param>
    /// <returns>False where nobody knows.</returns>
    public bool IsOdd(int index) => HasMajority && !_isOfTheMajority[index];

    /// <summary>Whether two probes agree.</summary>
    /// <param name="index">One.</param>
    /// <param name="other">The other.</param>
    /// <returns>True where each lies within reach of the other.</returns>
    public bool Agree(int index, int other) => _agree[index, other];
}
