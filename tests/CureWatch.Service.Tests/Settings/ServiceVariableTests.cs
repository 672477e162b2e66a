using System.Text.Json.Nodes;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class ServiceVariableTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public void Dispose() => _written.Dispose();

    [Theory]
    [InlineData(ServiceVariants.Embedded)]
    [InlineData(ServiceVariants.External)]
    [InlineData(ServiceVariants.Gateway)]
    public void EveryKey_CanStandInTheEnvironment(string document)
    {
        ServiceSettings? settings = ServiceFile.Read(null, Flat(JsonNode.Parse(document)!, "CUREWATCH"), _faults);

        Assert.Empty(_faults.All);
        ServiceSettings written = Read(document)!;
        Assert.Equal(written.Mqtt.External, settings!.Mqtt.External);
        Assert.Equal(written.Mqtt.Users.Select(Said), settings.Mqtt.Users.Select(Said));
        Assert.Equal(written.Board.Hosts, settings.Board.Hosts);
        Assert.Equal(
            (written.Mqtt.Port, written.Mqtt.Listen, written.DataFolder, written.Board.Port, written.Board.Listen, written.Limits),
            (settings.Mqtt.Port, settings.Mqtt.Listen, settings.DataFolder, settings.Board.Port, settings.Board.Listen, settings.Limits));
    }

    [Fact]
    public void Variable_GoesBeforeTheFile_AndLeavesTheRest()
    {
        ServiceSettings settings = Read(
            ServiceVariants.Embedded,
            ("CUREWATCH__MQTT__PORT", "0"), ("CureWatch__mqtt__Users__1__Password", "007"), ("curewatch__board__hosts__2", "door.example"))!;

        Assert.Empty(_faults.All);
        Assert.Equal(0, settings.Mqtt.Port);
        Assert.Equal([("bonnet", "rain on tin"), ("buttons", "007")], settings.Mqtt.Users.Select(u => (u.User, u.Password)));
        Assert.Equal(["board.example", "192.0.2.7", "door.example"], settings.Board.Hosts);
        Assert.Equal(8081, settings.Board.Port);
    }

    [Theory]
    [InlineData("CUREWATCH__MQTT__PROT", "1884", "the key PROT")]
    [InlineData("CUREWATCH__MAIL", "x", "the key MAIL")]
    [InlineData("CUREWATCH__", "x", "the key ")]
    [InlineData("CUREWATCH__MQTT", "x", "a value")]
    [InlineData("CUREWATCH__MQTT__PORT__NUMBER", "1884", "the key NUMBER")]
    [InlineData("CUREWATCH__MQTT__PORT", "18,84", "\"18,84\"")]
    [InlineData("CUREWATCH__MQTT__PORT", " 1884", "\" 1884\"")]
    [InlineData("CUREWATCH__MQTT__PORT", "١٨٨٤", null)]
    [InlineData("CUREWATCH__MQTT__PORT", "1_884", "\"1_884\"")]
    [InlineData("CUREWATCH__MQTT__PORT", "0x75C", "\"0x75C\"")]
    [InlineData("CUREWATCH__MQTT__PORT", "65536", "65536")]
    [InlineData("CUREWATCH__MQTT__PORT", "1e999999", "1e999999")]
    [InlineData("CUREWATCH__MQTT__PORT", "", "\"\"")]
    [InlineData("CUREWATCH__MQTT__LISTEN", "all", "\"all\"")]
    [InlineData("CUREWATCH__MQTT__EXTERNAL__TLS", "yes", "\"yes\"")]
    [InlineData("CUREWATCH__MQTT__USERS__X__USER", "u", "the key X")]
    [InlineData("CUREWATCH__MQTT__USERS__01__USER", "u", "the key 01")]
    [InlineData("CUREWATCH__MQTT__USERS__1__USER", "u", "entry 1")]
    [InlineData("CUREWATCH__MQTT__USERS__0__USER", " ", "\" \"")]
    [InlineData("CUREWATCH__BOARD__HOSTS", "board.example", "a value")]
    [InlineData("CUREWATCH__BOARD__LISTEN", "all", "\"all\"")]
    [InlineData("CUREWATCH__LIMITS__CLIENTS", "0", "0")]
    public void Variable_ThatCannotBeUsed_IsNamed(string name, string value, string? seen)
    {
        Assert.Null(ServiceFile.Read(null, [new ServiceVariable(name, value)], _faults));

        Fault fault = _faults.All.First(f => f.Place == name);
        Assert.Equal("environment", fault.File);
        Assert.Equal(seen?.Trim() ?? fault.Seen, fault.Seen);
    }

    [Fact]
    public void UnknownKey_IsToldWhatThereIs()
    {
        Read("{}", ("CUREWATCH__DATA__PATH", "x"), ("CUREWATCH__MQTT__USERS", "x"));

        Assert.Equal(
            ["CUREWATCH__DATA__FOLDER", "CUREWATCH__MQTT__USERS__0 for the first entry, and so on"], _faults.All.Select(f => f.Allowed));
    }

    [Fact]
    public void MissingKey_OfAnEntryTheEnvironmentBegan_IsNamedAsAVariable()
    {
        Assert.Null(Read(ServiceVariants.Embedded, ("curewatch__mqtt__users__2__user", "u"), ("CUREWATCH__MQTT__USERS__2__ROLE", "client")));

        Assert.Equal(
            ("environment", "CUREWATCH__MQTT__USERS__2__PASSWORD", "nothing"), _faults.All.Select(f => (f.File, f.Place, f.Seen)).Single());
    }

    [Fact]
    public void MissingKey_OfAnEntryInTheFile_IsNamedInTheFile()
    {
        Assert.Null(Read("""{"mqtt":{"users":[{"user":"u"}]}}""", ("CUREWATCH__MQTT__USERS__0__ROLE", "client")));

        Assert.Equal("/mqtt/users/0/password", Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void SameKey_InTwoVariables_IsRefused()
    {
        Assert.Null(Read("{}", ("CUREWATCH__MQTT__PORT", "1"), ("curewatch__mqtt__port", "1")));

        Assert.Equal("the same key as in CUREWATCH__MQTT__PORT", Assert.Single(_faults.All).Seen);
    }

    [Fact]
    public void Password_InAVariable_IsInNoFault()
    {
        Assert.Null(Read(
            "{}",
            ("CUREWATCH__MQTT__USERS__0__PASSWORD", "SECRET\n"),
            ("CUREWATCH__MQTT__EXTERNAL", "SECRET"),
            ("CUREWATCH__MQTT__EXTERNAL__PASSWORD", "SECRET"),
            ("CUREWATCH__MQTT__EXTERNAL__HOST", "shop:SECRET@h")));

        Assert.DoesNotContain("SECRET", string.Join('\n', _faults.All), StringComparison.Ordinal);
    }

    [Fact]
    public void FaultOfTheFile_AndOfTheEnvironment_AreBothNamed()
    {
        Assert.Null(Read(
            """{"mqtt":7,"data":{"folder":"a","folder":"b"}}""",
            ("CUREWATCH__MQTT__PORT", "1"), ("CUREWATCH__DATA__FOLDER", "c"), ("CUREWATCH__BOARD__PORT", "x")));

        Assert.Equal(["/mqtt", "/data/folder", "CUREWATCH__BOARD__PORT"], _faults.All.Select(f => f.Place));
    }

    [Fact]
    public void FileThatCannotBeRead_HidesNoUnknownVariable()
    {
        Assert.Null(Read("{", ("CUREWATCH__MAIL", "x")));

        Assert.Equal(["CUREWATCH__MAIL", "line 1"], _faults.All.Select(f => f.Place));
    }

    private static string Said(MqttUser user) => $"{user} {user.Password} {string.Join(", ", user.Probes)}";

    private static IEnumerable<ServiceVariable> Flat(JsonNode node, string name) => node switch
    {
        JsonObject item => item.SelectMany(p => Flat(p.Value!, $"{name}__{p.Key.ToUpperInvariant()}")),
        JsonArray array => array.SelectMany((v, i) => Flat(v!, $"{name}__{i}")),
        _ => [new ServiceVariable(name, node.ToString())],
    };

    private ServiceSettings? Read(string text, params (string Name, string Value)[] variables) => ServiceFile.Read(
        _written.File("curewatch.json", text), variables.Select(v => new ServiceVariable(v.Name, v.Value)), _faults);
}
