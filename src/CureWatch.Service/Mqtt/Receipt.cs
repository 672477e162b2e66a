using CureWatch.Readings;
using CureWatch.Service.Pump;
using MQTTnet.Protocol;

namespace CureWatch.Service.Mqtt;

/// <summary>What became of a message.</summary>
/// <param name="Answered">Completes when it may be acknowledged.</param>
/// <param name="Refusal">Why it was refused; null where it was not.</param>
internal readonly record struct Receipt(Task<Answer> Answered, Disbelief? Refusal)
{
    private static readonly Task<Answer> AtOnce = Task.FromResult<Answer>(Answer.Stored.Plain);

    /// <summary>The same for its sender.</summary>
    public MqttPubAckReasonCode Reason => Refusal switch
    {
        null => MqttPubAckReasonCode.Success,
        Disbelief.Malformed => MqttPubAckReasonCode.PayloadFormatInvalid,
        Disbelief.TooLarge => MqttPubAckReasonCode.QuotaExceeded,
        Disbelief.UnknownProbe => MqttPubAckReasonCode.TopicNameInvalid,
        _ => MqttPubAckReasonCode.ImplementationSpecificError,
    };

    /// <summary>A message that is none of ours.</summary>
    public static Receipt Nothing { get; } = new(AtOnce, null);

    /// <summary>A message that was counted; nothing is lost if its count is.</summary>
    public static Receipt Of(Disbelief refusal) => new(AtOnce, refusal);
}
