using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;

namespace CureWatch.Service.Api;

/// <summary>Live changes as server-sent events.</summary>
internal static class LiveEndpoint
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/live", Live)
        .WithSummary("Live changes as server-sent events: everything at first, then what changed, and the time every few seconds")
        .WithMetadata(new Gives(
            StatusCodes.Status200OK,
            null,
            "Events clock {at}, troubles {troubles}, climate {bay, climate}, windows, handover and warning, each with the document of that name as its data.",
            "text/event-stream"))
        .Refuses(StatusCodes.Status503ServiceUnavailable, "Too many listen already.");

    private static IResult Live(HttpContext context, LiveFeed feed, IHostApplicationLifetime lifetime) => feed.IsFull
        ? Problem.Of(StatusCodes.Status503ServiceUnavailable, "Too many listen already.")
        : TypedResults.ServerSentEvents(Until(feed, context.RequestAborted, lifetime.ApplicationStopping));

    /// <summary>A stream that outlived the stop would hold it up for as long as the host waits.</summary>
    private static async IAsyncEnumerable<SseItem<string>> Until(
        LiveFeed feed, CancellationToken aborted, CancellationToken stopping, [EnumeratorCancellation] CancellationToken ended = default)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(aborted, stopping, ended);
        await foreach (SseItem<string> item in feed.Listen(either.Token))
        {
            yield return item;
        }
    }
}
