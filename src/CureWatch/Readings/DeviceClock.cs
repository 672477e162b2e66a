using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>How far a probe's clock is off ours, and how fast it drifts, from what its readings say of their instants.</summary>
/// <remarks>
/// <para>
/// A reading arrives after it was measured by the way it took, which is never negative and mostly short, less what the device's clock is
/// ahead. So the least of these delays is next to minus the offset: a backlog or a slow network only makes others longer.
/// Source (choice): the least of windows of ten minutes, of which six hours are kept; the offset is that of the last two.
/// </para>
/// <para>
/// The drift is the median slope between any two windows. Source (law): Theil 1950, Proc. Kon. Ned. Akad. Wetensch. A 53, 386–392; Sen 1968,
/// J. Amer. Statist. Assoc. 63, 1379–1389. Edges: a clock that was set makes a step, before which nothing counts.
/// </para>
/// </remarks>
public sealed class DeviceClock
{
    private const int MostWindows = 36;

    /// <summary>An hour and a half: a slope over less says more of the network than of the clock. Source (choice).</summary>
    private const int LeastWindows = 9;

    private const double SecondsPerDay = 86_400;

    /// <summary>Windows of ten minutes.</summary>
    private static readonly TimeSpan Window = TimeSpan.FromMinutes(10);

    /// <summary>No clock drifts as far from one window to the next. Source (choice): a usual crystal drifts 0.06 s at most in ten minutes.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(5);

    private readonly ImmutableArray<Least> _windows;

    private DeviceClock(ImmutableArray<Least> windows, Refusal? refused) => (_windows, Refused) = (windows, refused);

    /// <summary>A clock of which nothing is known.</summary>
    public static DeviceClock Unknown { get; } = new([], null);

    /// <summary>Why what its probe sent since it was last believed is not, where that is for its instant; else null.</summary>
    public Refusal? Refused { get; }

    /// <summary>How far it is ahead of ours [s], less than 0 where it is behind; null where nothing is known.</summary>
    public double? OffsetSeconds
    {
        get
        {
            if (_windows.IsEmpty)
            {
                return null;
            }

            Least last = _windows[^1];
            Least before = _windows.Length > 1 && _windows[^2].Number == last.Number - 1 ? _windows[^2] : last;
            return -(last.Delay < before.Delay ? last : before).Delay.TotalSeconds;
        }
    }

    /// <summary>How much it gains on ours [s a day], less than 0 where it loses; null where it was not heard for long since it was last set.</summary>
    public double? DriftSecondsPerDay
    {
        get
        {
            Least[] steady = [.. SinceTheLastStep()];
            if (steady.Length < LeastWindows)
            {
                return null;
            }

            var slopes = new List<double>(steady.Length * (steady.Length - 1) / 2);
            for (int i = 0; i < steady.Length; i++)
            {
                for (int j = i + 1; j < steady.Length; j++)
                {
                    slopes.Add((steady[i].Delay - steady[j].Delay) / (steady[i].At - steady[j].At));
                }
            }

            slopes.Sort();
            return -SecondsPerDay * (slopes[(slopes.Count - 1) / 2] + slopes[slopes.Count / 2]) / 2;
        }
    }

    /// <summary>Takes a reading in that is believed.</summary>
    /// <param name="raw">The reading; one without a clock says nothing of it.</param>
    /// <returns>What is known with it.</returns>
    public DeviceClock Hear(RawReading raw) => With(raw) is var windows && windows == _windows && Refused is null ? this : new DeviceClock(windows, null);

    /// <summary>Takes a reading in that is refused for its instant.</summary>
    /// <param name="raw">The reading.</param>
    /// <param name="why">Why.</param>
    /// <returns>What is known with it.</returns>
    public DeviceClock Refuse(RawReading raw, Disbelief why) => new(With(raw), Refusal.Of(Refused, why, raw.ReceivedAt));

    private ImmutableArray<Least> With(RawReading raw)
    {
        if (!raw.HasClock)
        {
            return _windows;
        }

        var heard = new Least(raw.ReceivedAt.UtcTicks / Window.Ticks, raw.ReceivedAt, raw.ReceivedAt - raw.MeasuredAt);
        if (_windows.IsEmpty || _windows[^1].Number < heard.Number)
        {
            return [.. _windows.AsSpan()[(_windows.Length < MostWindows ? 0 : 1)..], heard];
        }

        return heard.Delay < _windows[^1].Delay ? _windows.SetItem(_windows.Length - 1, heard) : _windows;
    }

    private IEnumerable<Least> SinceTheLastStep()
    {
        for (int i = _windows.Length - 1; i >= 0; i--)
        {
            yield return _windows[i];
            if (i > 0 && (_windows[i].Delay - _windows[i - 1].Delay).Duration() > Step)
            {
                yield break;
            }
        }
    }

    /// <summary>The reading of a window that took least.</summary>
    private readonly record struct Least(long Number, DateTimeOffset At, TimeSpan Delay);
}
