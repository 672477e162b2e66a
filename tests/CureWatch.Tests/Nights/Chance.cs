namespace CureWatch.Tests.Nights;

/// <summary>What a simulated night is drawn with.</summary>
internal sealed class Chance(int seed)
{
    private readonly Random _random = new(seed);

#pragma warning disable CA5394 // weather, no secrets
    public double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    public bool Happens(double chance) => _random.NextDouble() < chance;

    public int Below(int count) => _random.Next(count);

    public double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
#pragma warning restore CA5394
}
