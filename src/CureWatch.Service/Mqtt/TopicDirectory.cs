using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>What the topics are about at present: follows the settings, and builds its map anew only when they change.</summary>
internal sealed class TopicDirectory(Latest latest)
{
    private volatile TopicMap _map = TopicMap.Blank;

    public TopicMap Current
    {
        get
        {
            ShopSettings? settings = latest.Register.Settings.Shop;
            TopicMap map = _map;
            if (settings is not null && !ReferenceEquals(map.Settings, settings))
            {
                _map = map = TopicMap.Of(settings);
            }

            return map;
        }
    }
}
