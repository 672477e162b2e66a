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

    /// <summary>The board's port alone, whatever else the file or the environment holds a fault in: the service may run by what they said before.</summary>
    /// <returns>The port; null where nothing that can be read says one.</returns>
    public static int? BoardPort(string? path, IEnumerable<ServiceVariable> variables)
    {
        var unheard = new Faults();
        ServiceOverlay overlay = ServiceOverlay.Of(variables.Where(v => v.Keys is [var board, var port] && Is(board, "board") && Is(port, "port")), unheard);
        JsonElement document = (path is null ? null : JsonFile.Load(path, unheard)) ?? default;
        return ServiceMerge.Of(path, document, overlay, unheard)["board"]["port"].Integer(0, Ports.Highest);
    }

    private static bool Is(string key, string name) => key.Equals(name, StringComparison.OrdinalIgnoreCase);

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
