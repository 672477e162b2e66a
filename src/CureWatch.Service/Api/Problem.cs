using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.WebUtilities;

namespace CureWatch.Service.Api;

/// <summary>Why a request got no for an answer, as RFC 9457 problem details.</summary>
internal static class Problem
{
    public const string ContentType = "application/problem+json";

    /// <summary>More faults than this are counted, not named: nobody mends more at a time. Source (choice).</summary>
    private const int MostFaults = 100;

    /// <summary>A problem that its status and one sentence describe.</summary>
    public static IResult Of(int status, string detail) => With(status, detail, [], []);

    /// <summary>What was sent cannot be used; every fault is named, or of very many the first.</summary>
    public static IResult Faulty(ImmutableArray<Fault> faults)
    {
        string named = faults.Length > MostFaults ? $" The first {MostFaults} are named." : "";
        string detail = $"{faults.Length} {(faults.Length == 1 ? "fault" : "faults")} in what was sent.{named}";
        return With(StatusCodes.Status400BadRequest, detail, [.. faults.Take(MostFaults)], []);
    }

    /// <summary>The car may not leave; every hold is named.</summary>
    public static IResult Held(ImmutableArray<Hold> holds) => With(
        StatusCodes.Status409Conflict, "The car is held. Lift every hold, or say in 'despite' why it leaves all the same.", [], holds);

    public static IResult NoShopYet() =>
        Of(StatusCodes.Status503ServiceUnavailable, "The shop's settings have not been taken in yet; try again in a moment.");

    private static JsonAnswer With(int status, string detail, ImmutableArray<Fault> faults, ImmutableArray<Hold> holds) => new(
        status,
        json =>
        {
            json.WriteStartObject();
            json.WriteString("type", "about:blank");
            json.WriteString("title", ReasonPhrases.GetReasonPhrase(status));
            json.WriteNumber("status", status);
            json.WriteString("detail", detail);
            if (!faults.IsEmpty)
            {
                json.WriteArray("faults", faults, f =>
                {
                    json.WriteString("place", f.Place);
                    json.WriteString("saw", f.Seen);
                    json.WriteString("allowed", f.Allowed);
                });
            }

            if (!holds.IsEmpty)
            {
                json.WriteArray("holds", holds, h => JobJson.WriteHold(json, h));
            }

            json.WriteEndObject();
        },
        ContentType);
}
