using System.Text;
using System.Text.Json;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary><c>curewatch.json</c>, and behind a zero byte variables of the environment, one a line.</summary>
internal sealed class ServiceTarget() : DocumentTarget<ServiceSettings>("curewatch")
{
    private const string Secret = "rain on tin";

    public override IEnumerable<byte[]> Seeds => [Shipped.File("curewatch.json"), .. Texts.Select(Encoding.UTF8.GetBytes)];

    protected override (long Fixed, long PerByte) Allowance => (8_000_000, 4_000);

    private static string[] Texts =>
    [
        """
        {"mqtt":{"port":1884,"listen":"loopback","users":[
            {"user":"bonnet","password":"rain on tin","role":"probe","bay":"b","probe":"p"},{"user":"buttons","password":"rain on tin","role":"client"}]},
         "data":{"folder":"data"},"board":{"port":8081,"listen":"all","hosts":["board.example","192.0.2.7","::1"],"address":"https://board.example"},
         "limits":{"payloadBytes":4096,"clients":50,"retained":0,"readingsPerSecond":100},
         "telemetry":{"otlp":"https://collector.example:4318/in","protocol":"grpc","every":"00:00:10","traceShare":0.5,"prometheus":true},
         "storage":{"backup":{"folder":"backup","at":"22:05","daily":3,"weekly":2,"monthly":0},"keepJournal":"400.00:00:00"}}
        """,
        """{"mqtt":{"external":{"host":"broker.example","port":8884,"tls":true,"user":"shop","password":"rain on tin","clientId":"c"}}}""",
        "{\"mqtt\":{\"users\":[]},\"storage\":{\"backup\":null}}\0CUREWATCH__MQTT__PORT=1885\nCUREWATCH__STORAGE__BACKUP__FOLDER=b\nCUREWATCH__BOARD__HOSTS__0=h\nCUREWATCH__BOARD__HOSTS__1=i",
        "{}\0CUREWATCH__MQTT__P:\"rain\u0016on tin\"=1", // no secret, though it reads as one
        "{}\0CUREWATCH__MQTT__USERS__0__USER=u\nCUREWATCH__MQTT__USERS__0__PASSWORD=rain on tin\nCUREWATCH__MQTT__USERS__0__ROLE=client\nCUREWATCH__TELEMETRY__PROMETHEUS=true",
    ];

    protected override ServiceSettings? Read(byte[] input, Faults faults)
    {
        ServiceSettings? read = ScratchFile.Read(
            "curewatch.json", Body(input), path => ServiceFile.Read(path, Variables(input), faults));
        if (SaysSecretsOnlyAsPasswords(input))
        {
            BrokenPromiseException.Unless(!faults.All.Any(f => f.ToString().Contains(Secret, StringComparison.Ordinal)), "a fault shows a password");
        }

        return read;
    }

    protected override void Check(ServiceSettings read, byte[] input)
    {
        BrokenPromiseException.Unless(read.Mqtt.Port is >= 0 and <= 65_535 && read.Board.Port is >= 0 and <= 65_535, "a port beyond its range");
        BrokenPromiseException.Unless(read.Mqtt is not { Listen: Listen.All, Users.IsEmpty: true, External: null }, "a broker open to everybody");
        BrokenPromiseException.Unless(read.Board is not { Listen: Listen.All, Hosts.IsEmpty: true }, "a board open under any name");
        BrokenPromiseException.Unless(read.Limits is { PayloadBytes: >= 1024, Clients: >= 1, Retained: >= 0, ReadingsPerSecond: >= 100 }, "a limit beyond its range");
        BrokenPromiseException.Unless(read.Telemetry.TraceShare is >= 0 and <= 1, "a share beyond its range");
        BrokenPromiseException.Unless(!read.ToString().Contains(Secret, StringComparison.Ordinal), "the settings show a password");
    }

    /// <summary>The document as the variables complete it has no schema of its own: without variables it is what is written.</summary>
    protected override JsonElement Document(byte[] input) => base.Document(Variables(input).Length > 0 ? "{}"u8.ToArray() : Body(input));

    private static byte[] Body(byte[] input) => input.AsSpan().IndexOf((byte)0) is >= 0 and var end ? input[..end] : input;

    private static ServiceVariable[] Variables(byte[] input) =>
    [
        .. from line in Encoding.Latin1.GetString(input[Body(input).Length..]).Split('\n')
           let at = line.IndexOf('=', StringComparison.Ordinal)
           let name = at > 0 ? line[..at].TrimStart('\0') : ""
           where name.StartsWith("CUREWATCH__", StringComparison.OrdinalIgnoreCase)
           select new ServiceVariable(name, line[(at + 1)..]),
    ];

    /// <summary>Elsewhere it is no secret, and a fault may show it.</summary>
    private static bool SaysSecretsOnlyAsPasswords(byte[] input)
    {
        try
        {
            return OnlyAsPasswords(JsonElement.Parse(Body(input)), isPassword: false) && Variables(input).All(IsPasswordOrHarmless);
        }
        catch (JsonException)
        {
            return false;
        }
        catch (InvalidOperationException)
        {
            return false; // half of a surrogate pair
        }
    }

    private static bool IsPasswordOrHarmless(ServiceVariable variable) =>
        !Shows(variable.Name) && (variable.Name.EndsWith("__PASSWORD", StringComparison.OrdinalIgnoreCase) || !Shows(variable.Value));

    private static bool OnlyAsPasswords(JsonElement place, bool isPassword) => place.ValueKind switch
    {
        JsonValueKind.Object => place.EnumerateObject().All(
            p => !Shows(p.Name) && OnlyAsPasswords(p.Value, p.Name == "password")),
        JsonValueKind.Array => place.EnumerateArray().All(e => OnlyAsPasswords(e, isPassword: false)),
        JsonValueKind.String => isPassword || !Shows(place.GetString()!),
        _ => true,
    };

    /// <summary>Whether it would be read in it on one line, where what does not show is a blank.</summary>
    private static bool Shows(string text) => OneLine.Of(text).Contains(Secret, StringComparison.Ordinal);
}
