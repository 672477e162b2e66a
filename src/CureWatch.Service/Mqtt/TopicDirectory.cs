using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>What the topics are about at present: follows the settings, and builds its map anew only when they change.</summary>
internal sealed class TopicDirectory(Latest latest)
{
    private readonly Lock _building = new();
    private volatile TopicMap _map = TopicMap.Blank;

    public TopicMap Current
    {
        get
        {
            TopicMap map = _map;
            return latest.Register.Settings.Shop is not { } settings || ReferenceEquals(map.Settings, settings) ? map : Built();
        }
    }

    /// <summary>By one of the connections that ask; a large shop's map takes a moment.</summary>
    private TopicMap Built()
    {
        lock (_building)
        {
            ShopSettings settings = latest.Register.Settings.Shop!;
            return ReferenceEquals(_map.Settings, settings) ? _map : _map = TopicMap.Of(settings);
        }
    }
}
