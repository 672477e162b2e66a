namespace CureWatch.Service.Demo;

/// <summary>How the demo is played.</summary>
/// <param name="MinutesPerSecond">Most virtual minutes in a second.</param>
/// <param name="UntilHandover">Whether it ends once the grey estate is ready.</param>
internal sealed record DemoSettings(double MinutesPerSecond, bool UntilHandover);
