namespace CureWatch.Service.Mqtt;

/// <summary>A broker as the place where this program keeps what others may read.</summary>
internal interface IOutlet
{
    /// <summary>Publishes a message that the broker keeps, or takes the kept one away where the payload is empty.</summary>
    Task KeepAsync(string topic, ReadOnlyMemory<byte> payload, CancellationToken cancelled);
}
