using System.Collections.Immutable;

namespace CureWatch.Service.Mqtt;

/// <summary>What a message on a topic is about.</summary>
internal abstract record TopicMeaning
{
    private TopicMeaning()
    {
    }

    /// <summary>Readings of one probe, or of several that share the topic.</summary>
    internal sealed record Readings(ImmutableArray<ReadingDecoder> Probes) : TopicMeaning;

    /// <summary>What a person reports by a push-button.</summary>
    internal sealed record Tap(string Bay) : TopicMeaning;

    /// <summary>A probe nobody set up.</summary>
    /// <param name="Place">What it is called, as <c>bay/probe</c>.</param>
    internal sealed record UnknownProbe(string Place) : TopicMeaning;

    /// <summary>Nothing anybody sends here: another topic, or one this program alone writes.</summary>
    internal sealed record Foreign : TopicMeaning;
}
