using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>Whether the process lives, and whether it does its work.</summary>
internal static class HealthEndpoints
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/health/live", () => Says("live")).WithSummary("The process answers").Gives("health", "It does.");
        app.MapGet("/health/ready", Ready)
            .WithSummary("The engine runs and the journal takes entries")
            .Gives("health", "They do.")
            .Refuses(StatusCodes.Status503ServiceUnavailable, "They do not; 'detail' says why.");
    }

    private static IResult Ready(PumpLoop pump, Latest latest) => pump.Trouble is { } trouble
        ? Problem.Of(StatusCodes.Status503ServiceUnavailable, trouble)
        : latest.Register.Shop is null ? Problem.NoShopYet() : Says("ready");

    private static JsonAnswer Says(string status) => JsonAnswer.Object(json => json.WriteString("status", status));
}
