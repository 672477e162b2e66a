using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The air of a place stretch by stretch, mixed once for all surfaces in it.</summary>
/// <param name="sources">Sources of the air, each with a sample.</param>
/// <remarks>For one look at one present: it remembers all it was asked, and is not for several threads.</remarks>
public sealed class AirMixes(ImmutableArray<Source> sources)
{
    private readonly Dictionary<(DateTimeOffset From, DateTimeOffset To, DateTimeOffset Now), AirMix?> _known = [];

    /// <summary>Sources of the air, each with a sample.</summary>
    public ImmutableArray<Source> Sources => sources;

    /// <summary>The same as if its probes spoke as seldom as old readings are kept.</summary>
    internal AirMixes Seldom => field ??= new AirMixes([.. sources.Select(s => s with { Every = s.Every > Ages.Coarse ? s.Every : Ages.Coarse })]);

    /// <summary>Mixes the air over a stretch with no measurement inside.</summary>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The air; null where it was not yet measured.</returns>
    internal AirMix? Over(DateTimeOffset from, DateTimeOffset to, DateTimeOffset now)
    {
        if (!_known.TryGetValue((from, to, now), out AirMix? mix))
        {
            mix = AirMix.Over(sources, from, to, now);
            _known.Add((from, to, now), mix);
        }

        return mix;
    }
}
