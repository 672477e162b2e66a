using System.Collections.Frozen;
using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>What the topics of a shop are about, as its settings have them.</summary>
internal sealed class TopicMap
{
    /// <summary>What a probe is called that nobody may call so.</summary>
    private const string NoIds = "no such id";

    private static readonly TopicMeaning Foreign = new TopicMeaning.Foreign();

    private readonly FrozenDictionary<string, TopicMeaning> _known;
    private readonly string? _root;

    private TopicMap(ShopSettings? settings, FrozenDictionary<string, TopicMeaning> known)
    {
        Settings = settings;
        _known = known;
        Topics = settings is null ? null : new Topics(settings.Plan.Shop);
        _root = Topics is null ? null : Topics.Root + "/";
    }

    /// <summary>Before a shop was set up, every topic is foreign.</summary>
    public static TopicMap Blank { get; } = new(null, FrozenDictionary<string, TopicMeaning>.Empty);

    /// <summary>The settings it was built from.</summary>
    public ShopSettings? Settings { get; }

    /// <summary>The shop's topics; null before a shop was set up.</summary>
    public Topics? Topics { get; }

    /// <summary>The topics that the settings name, besides those every shop has.</summary>
    public IEnumerable<string> OwnTopics => _known.Where(k => k.Value is TopicMeaning.Readings).Select(k => k.Key);

    public static TopicMap Of(ShopSettings settings)
    {
        var topics = new Topics(settings.Plan.Shop);
        var known = new Dictionary<string, TopicMeaning>(StringComparer.Ordinal);
        foreach (BayPlan bay in settings.Plan.Bays)
        {
            known.Add(topics.Tap(bay.Bay), new TopicMeaning.Tap(bay.Bay));
        }

        var measures = settings.Plan.Bays.SelectMany(b => b.Probes.Select(p => ((b.Bay, p.Probe.Id), p.Probe.Measures))).ToDictionary();
        foreach (ProbeWiring wiring in settings.Wiring)
        {
            var decoder = new ReadingDecoder(wiring, measures[(wiring.Bay, wiring.Probe)]);
            ImmutableArray<ReadingDecoder> beside = known.GetValueOrDefault(wiring.Topic) is TopicMeaning.Readings shared ? shared.Probes : [];
            known[wiring.Topic] = new TopicMeaning.Readings(beside.Add(decoder));
        }

        return new TopicMap(settings, known.ToFrozenDictionary(StringComparer.Ordinal));
    }

    public TopicMeaning Find(string topic)
    {
        if (_known.TryGetValue(topic, out TopicMeaning? meaning))
        {
            return meaning;
        }

        return _root is not null && topic.StartsWith(_root, StringComparison.Ordinal) && topic[_root.Length..].Split('/') is [var bay, "probe", var probe]
            ? new TopicMeaning.UnknownProbe(Ids.Allows(bay) && Ids.Allows(probe) ? $"{bay}/{probe}" : NoIds)
            : Foreign;
    }
}
