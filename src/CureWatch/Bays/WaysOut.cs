using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What a person can do about a probe at fault, so that windows stop to move by it.</summary>
/// <remarks>What is read by hand ends none of it: a spot is one surface at one instant, and what nobody hears is the hours after it.</remarks>
internal static class WaysOut
{
    /// <summary>Says it.</summary>
    /// <param name="kind">What is the matter.</param>
    /// <param name="log">The probe.</param>
    /// <returns>A sentence or two.</returns>
    public static Sentence Of(WindowReasonKind kind, ProbeLog log)
    {
        string probe = log.Probe.Id;
        Sentence byHand = log.Probe.Measures == Measures.Panel ? (Sentence)$" A temperature read by hand does not." : $"";
        return kind switch
        {
            WindowReasonKind.Unheard => $"Its next reading ends it: see to {probe}'s power, radio and mount, or put another in its place.{byHand}",
            WindowReasonKind.Disbelieved => $"A reading that can be believed ends it: see to {probe}, or put another in its place.{byHand}",
            WindowReasonKind.Disagreeing => $"That they agree again ends it: hold them side by side for a quarter of an hour, and calibrate or change the one that is off.",
            _ => $"A reading that moves again ends it: see to {probe}, or put another in its place.{byHand}",
        };
    }
}
