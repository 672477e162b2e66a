using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>A stretch between two believed readings of a probe that was too long.</summary>
/// <param name="From">When the last one before it was measured.</param>
/// <param name="To">When the first one after it was; null while it lasts.</param>
/// <param name="Why">Why it was not believed, where it was heard all the same; null where it was not heard.</param>
public sealed record Lapse(DateTimeOffset From, DateTimeOffset? To, Disbelief? Why);

/// <summary>When a probe was not heard or not believed, in order: what people are told beside what moved by it.</summary>
/// <param name="All">The stretches, no more than a few: of many, the oldest are put together.</param>
public sealed record Lapses(ImmutableArray<Lapse> All)
{
    private const int Most = 32;

    /// <summary>Shorter is no stretch that anything moves by [2 min]. Source (choice): the same as for a clock that runs in minutes.</summary>
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(2);

    /// <summary>A probe that was always heard.</summary>
    public static Lapses None { get; } = new([]);

    internal Lapses With(Probe probe, DateTimeOffset from, DateTimeOffset to, Disbelief? why)
    {
        if (to - from <= Shortest || to - from <= 1.5 * probe.Every)
        {
            return this;
        }

        ImmutableArray<Lapse> all = All.Add(new Lapse(from, to, why));
        return new Lapses(all.Length <= Most ? all : all.RemoveAt(1).SetItem(0, all[0] with { To = all[1].To }));
    }

    /// <summary>The stretches up to an instant, with the one that has not ended.</summary>
    /// <param name="log">The probe.</param>
    /// <param name="now">The instant.</param>
    /// <returns>The stretches, in order.</returns>
    public static ImmutableArray<Lapse> Of(ProbeLog log, DateTimeOffset now) => now - log.HeardAt > Shortest && now - log.HeardAt > 1.5 * log.Probe.Every
        ? log.Lapses.All.Add(new Lapse(log.HeardAt, null, WhyOf(log, now)))
        : log.Lapses.All;

    /// <summary>Why a probe is not believed by an instant; for its clock where that was so all the time, and no backlog of a line that was down.</summary>
    internal static Disbelief? WhyOf(ProbeLog log, DateTimeOffset at) => log.Refused?.Why ?? (log.Clock.Refused is { } refused
        && refused.Since <= log.SilentAt && at <= refused.At + log.Probe.SilentAfter ? refused.Why : null);
}
