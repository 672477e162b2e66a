using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Tests.Panels;

/// <summary>Sources for the tests of this room, minutes after a morning hour.</summary>
internal static class Sources
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);

    /// <summary>A probe that reports every minute.</summary>
    public static Source Of(params (double Minute, double Kelvins, double Pa)[] samples) => Every(1, samples);

    public static Source Every(double minutes, params (double Minute, double Kelvins, double Pa)[] samples)
    {
        Trail<Sample> trail = new();
        foreach ((double minute, double kelvins, double pa) in samples)
        {
            trail = trail.Append(new Sample(At(minute), kelvins, pa, 0));
        }

        return new Source(trail, TimeSpan.FromMinutes(minutes));
    }

    /// <summary>A probe that told the same every minute.</summary>
    public static Source Steady(int fromMinute, int toMinute, double kelvins, double pa = 0) =>
        Of([.. Enumerable.Range(fromMinute, toMinute - fromMinute + 1).Select(m => ((double)m, kelvins, pa))]);

    public static Watch Watch(Source[] air, params Source[] panels) => new([.. air], [.. panels]);

    public static IEnumerable<ClimateSegment> All(this ClimateTrack track) => Enumerable.Range(0, track.Segments.Count).Select(i => track.Segments[i]);
}
