using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What of a form cannot be used, in the words of the form: a script is told the keys of JSON and instants of UTC, nobody in a bay knows them.</summary>
internal static class FaultWords
{
    /// <summary>Why the service did not take a form.</summary>
    /// <param name="answer">What it said.</param>
    /// <param name="clock">The shop's clock.</param>
    /// <param name="surfaces">The surfaces of the form, as they were filled in.</param>
    public static IReadOnlyList<Sentence> Of(Answer answer, ShopClock clock, params IReadOnlyList<string> surfaces) =>
        answer is Answer.Refused refused ? [.. refused.Faults.Select(f => Of(f, clock, surfaces))] : BoardForms.FaultsOf(answer);

    private static Sentence Of(Fault fault, ShopClock clock, IReadOnlyList<string> surfaces) => (fault.Place.Split('/')[^1], fault.Seen.Trim('"')) switch
    {
        ("at", var seen) when Instants.TryParse(seen, out DateTimeOffset at) && at > clock.Now => $"It was done {clock.Of(at).Text}, and that is yet to come: it is {clock.Of(clock.Now).Text} now.",
        ("startedAt", var seen) when Instants.TryParse(seen, out DateTimeOffset begun) => $"The first wipe, {clock.Of(begun).Text}, comes before the last, and by a day at most.",
        ("surface", var seen) when fault.Place.StartsWith("/surfaces/", StringComparison.Ordinal) && fault.Allowed == SurfacesOfJob.EachOnce => $"The surface {seen} is there twice: each once.",
        ("plannedAt", var seen) when Instants.TryParse(seen, out _) => $"Coating begins no earlier than the car comes.",
        ("from", var seen) when Instants.TryParse(seen, out _) => $"The work begins within {PlanRequests.Farthest:%d} days.",
        ("to", var seen) when Instants.TryParse(seen, out _) => $"The work ends after now and after it began, by {PlanRequests.Longest:%d} days at most.",
        _ => BoardForms.Of(fault, surfaces),
    };
}
