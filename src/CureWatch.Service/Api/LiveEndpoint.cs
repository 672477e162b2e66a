using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>Live changes as server-sent events.</summary>
internal static class LiveEndpoint
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/live", Live)
        .LetsScreens().WithSummary("Live changes as server-sent events: everything at first, then what changed, and the time every few seconds")
        .WithMetadata(new Gives(
            StatusCodes.Status200OK,
            null,
            "Events clock {at}, troubles {troubles}, climate {bay, climate}, cancelled {job}, and windows, handover and warning, each with the document of that name as its data.",
            "text/event-stream"))
        .Refuses(StatusCodes.Status503ServiceUnavailable, "Too many listen already.");

    private static IResult Live(HttpContext context, LiveFeed feed, IHostApplicationLifetime lifetime, Visitor visitor) => feed.IsFull
        ? Problem.Of(StatusCodes.Status503ServiceUnavailable, "Too many listen already.")
        : TypedResults.ServerSentEvents(Until(feed, visitor, context.RequestAborted, lifetime.ApplicationStopping));

    /// <summary>
    /// A stream that outlived the stop would hold it up for as long as the host waits; and one of somebody who was signed out ends with what it would
    /// have told next.
    /// </summary>
    private static async IAsyncEnumerable<SseItem<string>> Until(
        LiveFeed feed, Visitor visitor, CancellationToken aborted, CancellationToken stopping, [EnumeratorCancellation] CancellationToken ended = default)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(aborted, stopping, ended);
        await foreach (SseItem<string> item in feed.Listen(either.Token))
        {
            if (!visitor.IsStillIn)
            {
                break;
            }

            yield return item;
        }
    }
}
