using System.Collections.Immutable;
using CureWatch.Service.Pump;
using CureWatch.Warnings;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Pump;

public class TroublesTests
{
    private static readonly DateTimeOffset At = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly FakeTimeProvider _clock = new(At);
    private readonly Troubles _troubles;
    private int _changes;

    public TroublesTests()
    {
        _troubles = new Troubles(_clock);
        _troubles.Changed += () => _changes++;
    }

    [Fact]
    public void Trouble_Raised_StandsUntilItIsCleared()
    {
        _troubles.Raise(WarningKind.BrokerTrouble, "refused");
        Trouble stands = Assert.Single(_troubles.Standing);
        Assert.Equal(new Trouble(WarningKind.BrokerTrouble, "refused", At), stands);
        Assert.Same(stands, _troubles.Of(WarningKind.BrokerTrouble));
        Assert.Null(_troubles.Of(WarningKind.StorageTrouble));

        _troubles.Clear(WarningKind.BrokerTrouble);

        Assert.Empty(_troubles.Standing);
        Assert.Equal(2, _changes);
    }

    [Fact]
    public void Trouble_RaisedAgain_GoesOnSinceThen()
    {
        _troubles.Raise(WarningKind.BrokerTrouble, "refused");
        ImmutableList<Trouble> before = _troubles.Standing;
        _clock.Advance(TimeSpan.FromMinutes(1));

        _troubles.Raise(WarningKind.BrokerTrouble, "refused");
        Assert.Same(before, _troubles.Standing);
        _troubles.Raise(WarningKind.BrokerTrouble, "no route");

        Assert.Equal([new Trouble(WarningKind.BrokerTrouble, "no route", At)], _troubles.Standing);
        Assert.Equal(2, _changes);
    }

    [Fact]
    public void Trouble_NobodyHas_IsNoChangeWhereItIsCleared()
    {
        _troubles.Raise(WarningKind.StorageTrouble, "full");
        _troubles.Clear(WarningKind.BrokerTrouble);
        Assert.Equal(WarningKind.StorageTrouble, Assert.Single(_troubles.Standing).Kind);
        Assert.Equal(1, _changes);
    }

    [Theory]
    [InlineData("No space left on device")]
    [InlineData("No space left on device.")]
    public void Cause_IsASentenceWithWhatWasSeen(string why) =>
        Assert.Equal("The journal cannot be written: No space left on device.", new Trouble(WarningKind.StorageTrouble, why, At).Cause.ToString());
}
