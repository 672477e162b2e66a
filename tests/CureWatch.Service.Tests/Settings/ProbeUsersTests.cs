using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class ProbeUsersTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Probe_OfTheShop_IsAccepted()
    {
        Check(ServiceVariants.Embedded);

        Assert.Empty(_faults.All);
    }

    [Theory]
    [InlineData("/mqtt/users/0/bay")]
    [InlineData("/mqtt/users/0/probe")]
    public void Probe_NobodyHas_IsNamedWhereItIsWritten(string changed)
    {
        Check(Edited.At(ServiceVariants.Embedded, changed, "\"x\""));

        Fault fault = Assert.Single(_faults.All);
        Assert.Equal("/mqtt/users/0/probe", fault.Place);
        Assert.EndsWith("curewatch.json", fault.File, StringComparison.Ordinal);
        Assert.Equal("a probe of the shop: b/p", fault.Allowed);
    }

    [Fact]
    public void Probe_OfAGateway_NobodyHas_IsNamedWhereItIsWritten()
    {
        Check(ServiceVariants.Gateway);

        Assert.Equal(("/mqtt/users/0/probes/1", "b/q"), _faults.All.Select(f => (f.Place, f.Seen)).Single());
    }

    [Fact]
    public void Probe_NamedInTheEnvironment_IsFoundThere()
    {
        Check(ServiceVariants.Embedded, new ServiceVariable("CUREWATCH__MQTT__USERS__0__PROBE", "x"));

        Assert.Equal(("CUREWATCH__MQTT__USERS__0__PROBE", "b/x"), _faults.All.Select(f => (f.Place, f.Seen)).Single());
    }

    private void Check(string text, params ServiceVariable[] variables)
    {
        ServiceSettings service = ServiceFile.Read(_written.File("curewatch.json", text), variables, _faults)!;
        ProbeUsers.Check(service, ShopFile.Read(_written.File("shop.json", ShopVariants.Least), _faults)!.Plan, _faults);
    }
}
