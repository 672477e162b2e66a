namespace CureWatch.Service.Mqtt;

/// <summary>The topics on which the embedded broker keeps a message of somebody else, no more than it may.</summary>
internal sealed class KeptTopics(int most)
{
    private readonly HashSet<string> _topics = new(StringComparer.Ordinal);

    /// <returns>Whether the broker may keep a message on the topic.</returns>
    public bool TryKeep(string topic)
    {
        lock (_topics)
        {
            return _topics.Contains(topic) || (_topics.Count < most && _topics.Add(topic));
        }
    }

    public void Forget(string topic)
    {
        lock (_topics)
        {
            _topics.Remove(topic);
        }
    }
}
