using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>Of a night counts what a coat lives through wet: from its first wipe until its keep-dry ends. Open from 8 to 18, asked at 10.</summary>
public class NightOfACoatTests
{
    // Dry at ten in the evening at the latest, water from three: it was a "No".
    [Theory]
    [InlineData(600, 1020, StartVerdict.Yes)]
    [InlineData(1080, 1020, StartVerdict.No)]
    public void Water_AfterItsKeepDry_IsNoReason(double dryAfter, double wetFrom, StartVerdict verdict) =>
        Assert.Equal(verdict, StartAnswer.To(KeptDry(dryAfter) with { Night = WetFrom(wetFrom, wetFrom + 120) }, Day).Verdict);

    // At a quarter to six two hours' work waits for the morning: what this night brings, it does not see.
    [Fact]
    public void Water_BeforeTheFirstWipe_IsNoReason()
    {
        StartDay late = Day with { Today = Day.Today! with { LocksUp = At(2) } };
        StartAnswer answer = StartAnswer.To(KeptDry(300) with { Night = WetFrom(600, 800) }, late);
        Assert.Equal((StartVerdict.Wait, At(22 * 60)), (answer.Verdict, answer.From!.Latest));
        Assert.DoesNotContain(answer.Reasons, r => r.Kind == Night);
    }

    // Asked after lock-up: it is begun in the morning and lives through the night after that one.
    [Fact]
    public void Water_OfTheNightItLivesThrough_IsAReason()
    {
        StartDay evening = Day with { Today = new(At(22 * 60), At(32 * 60)), Next = new(At(46 * 60), At(56 * 60)) };
        Assert.DoesNotContain((Night, StartWeight.Stops), KindsOf(StartAnswer.To(KeptDry(25 * 60) with { Night = WetFrom(15 * 60, 17 * 60) }, evening)));
        Assert.Contains((Night, StartWeight.Stops), KindsOf(StartAnswer.To(KeptDry(25 * 60) with { Night = WetFrom(39 * 60, 41 * 60) }, evening)));
    }

    [Fact]
    public void Night_BeyondWhatIsForeseen_IsSaidToBeUnknown()
    {
        StartReason reason = Assert.Single(StartAnswer.To(KeptDry(25 * 60) with { Night = (_, _) => null }, Day).Reasons);
        Assert.Equal((Night, StartWeight.Notes), (reason.Kind, reason.Weight));
        Assert.EndsWith("what that night brings is not known yet.", reason.Text.ToString(), StringComparison.Ordinal);
    }

    // A bay with a dehumidifier alone was told that nothing helps; against the cold it does not.
    [Theory]
    [InlineData(12, "Hold the air dry overnight with the dehumidifier, doors shut.")]
    [InlineData(9, "This bay has nothing that may heat it overnight: begin where its keep-dry ends in daylight, or cure it elsewhere.")]
    public void WetNight_InABayThatOnlyDries_NamesWhatDries(double coldestC, string help)
    {
        ClimateMeans dries = new(null, null, $"the dehumidifier", null) { DryAtNight = $"the dehumidifier" };
        StartAnswer answer = StartAnswer.To(Fine with { Means = dries, Night = Always(new NightAhead(coldestC, At(13 * 60), -0.2, At(13 * 60), 0.6, At(13 * 60))) }, Day);
        Assert.Equal((help, true), (answer.Reasons.Single().Help!.ToString(), answer.Reasons.Single().IsHelpHeat));
    }

    private static StartEvidence KeptDry(double minutes) => Fine with
    {
        Times = Same(OneCoat with { KeepDry = new KeepDryTimes(TimeSpan.FromMinutes(minutes), TimeSpan.FromMinutes(minutes), TimeSpan.FromMinutes(minutes)) }),
    };

    /// <summary>Wet, if the stretch that is asked about meets that one.</summary>
    private static Func<DateTimeOffset, DateTimeOffset?, NightAhead?> WetFrom(double fromMinute, double toMinute) => (from, to) =>
        from < At(toMinute) && !(to < At(fromMinute)) ? new NightAhead(12, At(fromMinute), -0.5, At(fromMinute), 0.6, At(fromMinute)) : new NightAhead(18, from, 6, from, 0, null);
}
