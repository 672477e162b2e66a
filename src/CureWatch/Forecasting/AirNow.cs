using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>A bay at the instant from which its night is looked ahead to.</summary>
/// <param name="At">The instant.</param>
/// <param name="AirKelvins">The mean of its air probes [K].</param>
/// <param name="VapourPressurePa">Their mean vapour pressure [Pa].</param>
public sealed record AirNow(DateTimeOffset At, double AirKelvins, double VapourPressurePa)
{
    /// <summary>How much moister the wettest air is than the mean [1], 1 or more.</summary>
    public double WettestShare { get; init; } = 1;

    /// <summary>The coldest measured panel [K]; null where none is heard.</summary>
    public double? ColdestPanelKelvins { get; init; }

    /// <summary>Surfaces without a probe of their own: how warm each is now [K] and how slowly it follows the air.</summary>
    public ImmutableArray<(double Kelvins, TimeSpan TimeConstant)> Modelled { get; init; } = [];

    /// <summary>The air outdoors: its temperature [K] and vapour pressure [Pa]; null where nobody measures.</summary>
    public (double Kelvins, double VapourPressurePa)? Outdoors { get; init; }

    /// <summary>Whether something heats the bay while nobody is there.</summary>
    public bool IsHeatedAtNight { get; init; }

    /// <summary>When people leave; before the instant where they have, null where they never do.</summary>
    public DateTimeOffset? LeavesAt { get; init; }

    /// <summary>When people left last, where they have; null while the shop is open.</summary>
    public DateTimeOffset? LeftAt { get; init; }

    /// <summary>When people come again; null where they never leave.</summary>
    public DateTimeOffset? OpensAt { get; init; }

    /// <summary>How many hours of the night are gone [h]; 0 by day.</summary>
    internal double NightHoursGone => Math.Max(0, (At - (LeftAt ?? At)).TotalHours);

    /// <summary>How many hours of night lie before a moment ahead.</summary>
    /// <param name="ahead">How far ahead [h].</param>
    /// <returns>Hours [h], 0 or more.</returns>
    internal double NightHoursBefore(double ahead)
    {
        if (LeavesAt is not { } leaves || OpensAt is not { } opens)
        {
            return 0;
        }

        double from = Math.Max(0, (leaves - At).TotalHours), to = Math.Min(ahead, (opens - At).TotalHours);
        return Math.Max(0, to - from);
    }
}
