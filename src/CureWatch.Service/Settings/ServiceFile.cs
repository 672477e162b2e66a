using System.Text.Json;

namespace CureWatch.Service.Settings;

/// <summary>How the service runs: <c>curewatch.json</c>, which may be absent, with the environment laid over it.</summary>
internal static class ServiceFile
{
    /// <summary>Below the working directory, as <c>--data</c> is.</summary>
    public const string UsualFolder = "data";

    /// <summary>No path is longer on the systems this runs on.</summary>
    private const int LongestPath = 4096;

    /// <param name="path">The file; null where there is none.</param>
    /// <param name="variables">What the environment says.</param>
    /// <param name="faults">Where faults are kept.</param>
    /// <returns>The settings, or null where the file or a variable holds a fault.</returns>
    public static ServiceSettings? Read(string? path, IEnumerable<ServiceVariable> variables, Faults faults)
    {
        int before = faults.Count;
        ServiceOverlay overlay = ServiceOverlay.Of(variables, faults);
        JsonElement? document = path is null ? default(JsonElement) : JsonFile.Load(path, faults);
        if (document is null)
        {
            return null;
        }

        ServiceSettings? settings = Service(ServiceMerge.Of(path, document.Value, overlay, faults));
        return faults.Count == before ? settings : null;
    }

    private static ServiceSettings? Service(JsonCursor top)
    {
        if (!top.Keys([], "mqtt", "data", "board", "limits", "telemetry", "storage"))
        {
            return null;
        }

        MqttSettings mqtt = MqttOfService.Read(top["mqtt"]);
        _ = top["data"].Keys([], "folder");
        string folder = top["data"]["folder"].Text(LongestPath) ?? UsualFolder;
        BoardSettings board = BoardOfService.Read(top["board"]);
        LimitSettings limits = LimitsOfService.Read(top["limits"]);
        return new ServiceSettings(mqtt, folder, board, limits)
        {
            Telemetry = TelemetryOfService.Read(top["telemetry"]),
            Storage = StorageOfService.Read(top["storage"]),
        };
    }
}
