using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>The watches of a bay's points at one look: what they share is put together, and mixed, once.</summary>
/// <param name="shop">The shop.</param>
/// <param name="bay">The bay as it is now.</param>
internal sealed class Watches(Shop shop, BayState bay)
{
    private readonly Dictionary<Place, (AirMixes Air, Surroundings? Hall)> _shared = [];

    /// <summary>The probes with something to tell, as sources of a point's climate.</summary>
    /// <param name="point">The point.</param>
    /// <returns>The watch.</returns>
    public Watch Of(WatchPoint point)
    {
        if (!_shared.TryGetValue(point.Air, out (AirMixes Air, Surroundings? Hall) shared))
        {
            _shared.Add(point.Air, shared = (point.AirIn(bay), point.HallIn(shop, bay)));
        }

        return point.WatchIn(bay, shared.Air, shared.Hall);
    }
}
