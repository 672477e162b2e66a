using CureWatch.Service.Backups;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>Whether the process lives, and whether it does its work.</summary>
internal static class HealthEndpoints
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/health/live", (Troubles troubles, BackupHealth backup) => Says("live", troubles, backup)).LetsEverybody().WithSummary("The process answers")
            .Gives("health", "It does.");
        app.MapGet("/health/ready", Ready).LetsEverybody()
            .WithSummary("The engine runs and the journal takes entries")
            .Gives("health", "They do; 'troubles' has what keeps it from its work although a new start would not help, 'backup' how old the newest one is.")
            .Refuses(StatusCodes.Status503ServiceUnavailable, "They do not; 'detail' says why.");
    }

    /// <summary>Whoever asks sends nothing here, or starts the service again, where it says no. That mends no broker, so a broker's trouble is no no.</summary>
    private static IResult Ready(Troubles troubles, Latest latest, BackupHealth backup) => troubles.Of(WarningKind.StorageTrouble) is { } storage
        ? Problem.Of(StatusCodes.Status503ServiceUnavailable, $"{storage.Cause} {storage.Rule.Action}")
        : latest.Register.Shop is null ? Problem.NoShopYet() : Says("ready", troubles, backup);

    private static JsonAnswer Says(string status, Troubles troubles, BackupHealth backup) => JsonAnswer.Object(json =>
    {
        json.WriteString("status", status);
        TroubleJson.WriteAll(json, troubles.Standing);
        backup.Write(json);
    });
}
