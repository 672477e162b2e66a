using System.Text.Json.Nodes;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Demo;

/// <summary>A car of the demo: how it is booked in, and what people tap on it. Its file has the shape of a job file.</summary>
internal sealed record DemoCar(DemoAct.BookedIn Booking, IReadOnlyList<DemoAct.Tapped> Taps)
{
    public static DemoCar Read(string path, DateTimeOffset bookedAt)
    {
        JsonObject document = JsonNode.Parse(File.ReadAllText(path))!.AsObject();
        JsonArray taps = document["taps"]!.AsArray();
        _ = document.Remove("taps");
        _ = document.Remove("$schema");
        string job = document["job"]!.GetValue<string>(), bay = document["bay"]!.GetValue<string>();
        return new DemoCar(
            new DemoAct.BookedIn(bookedAt, job, document.ToJsonString()),
            [.. taps.Select(t => Tap(bay, job, t!.AsObject()))]);
    }

    private static DemoAct.Tapped Tap(string bay, string job, JsonObject tap)
    {
        DateTimeOffset at = At(tap["reportedAt"] ?? tap["at"]!);
        string id = tap["id"]!.GetValue<string>();
        tap["job"] = job;
        return new DemoAct.Tapped(at, bay, job, id, tap.ToJsonString());
    }

    private static DateTimeOffset At(JsonNode instant) =>
        Instants.TryParse(instant.GetValue<string>(), out DateTimeOffset at)
            ? at
            : throw new InvalidDataException($"The demo's own files hold the instant '{instant}'.");
}
