namespace CureWatch.Benchmarks.Power;

/// <summary>The power has gone.</summary>
internal sealed class PowerCutException() : IOException("The power has gone.");
