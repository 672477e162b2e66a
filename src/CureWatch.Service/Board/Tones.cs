using CureWatch.Warnings;

namespace CureWatch.Service.Board;

/// <summary>How urgent what people are warned of looks.</summary>
internal static class Tones
{
    private const int MostUrgent = 1;

    public static Tone Of(AlarmRule rule) => rule.Priority == MostUrgent ? Tone.Act : Tone.Soon;
}
