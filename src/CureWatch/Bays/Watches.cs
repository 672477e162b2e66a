using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>The watches of a bay's points at one look: what they share is put together, and mixed, once.</summary>
/// <param name="shop">The shop.</param>
/// <param name="bay">The bay as it is now.</param>
internal sealed class Watches(Shop shop, BayState bay)
{
    private readonly List<(Place Place, AirMixes Air, Surroundings? Hall)> _known = [];

    /// <summary>The probes with something to tell, as sources of a point's climate.</summary>
    /// <param name="point">The point.</param>
    /// <returns>The watch.</returns>
    public Watch Of(WatchPoint point)
    {
        foreach ((Place place, AirMixes air, Surroundings? hall) in _known)
        {
            if (place == point.Air)
            {
                return point.WatchIn(bay, air, hall);
            }
        }

        (Place Place, AirMixes Air, Surroundings? Hall) found = (point.Air, point.AirIn(bay), point.HallIn(shop, bay));
        _known.Add(found);
        return point.WatchIn(bay, found.Air, found.Hall);
    }
}
