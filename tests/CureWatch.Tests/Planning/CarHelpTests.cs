using CureWatch.Planning;

namespace CureWatch.Tests.Planning;

/// <summary>What is advised is what the bay has, and never the opposite of what its air needs.</summary>
public class CarHelpTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 10, 0, 0, TimeSpan.Zero);
    private static readonly ShopHours Hours = new(Now, Now.AddDays(7), TimeZoneInfo.Utc, [new ShopDay(Now.AddHours(-2), null)]);
    private static readonly ClimateMeans Dries = new(null, null, $"the dehumidifier", null), Heats = new($"the fixed heating", null, null, null), Moistens = new(null, null, null, $"the humidifier");

    // 30 °C and 88 %: "warm the bay, or add moisture".
    [Fact]
    public void AirTooMoist_IsDried_OrNothingIsSaid()
    {
        Assert.Equal("Dry the air with the dehumidifier.", HelpAgainstNeverDry(Dries, isAirMoist: true));
        Assert.Null(HelpAgainstNeverDry(Heats, isAirMoist: true));
        Assert.Null(HelpAgainstNeverDry(Moistens, isAirMoist: true));
    }

    [Fact]
    public void AirThatIsNotTooMoist_IsWarmedOrMoistened_WithWhatTheBayHas()
    {
        Assert.Equal("Warm the bay with the fixed heating.", HelpAgainstNeverDry(Heats));
        Assert.Equal("Add moisture with the humidifier where the air is too dry.", HelpAgainstNeverDry(Moistens));
        Assert.Equal("Warm the bay, or add moisture where the air is too dry.", HelpAgainstNeverDry(Heats with { Moisten = Moistens.Moisten }));
        Assert.Null(HelpAgainstNeverDry(Dries));
    }

    [Fact]
    public void ColdCar_IsWarmedFor_WhereSomethingHeats()
    {
        Assert.Equal("Leave the car in a warm dry place first.", HelpOf(Car(Dries) with { Surfaces = [Wet] }));
        Assert.StartsWith("Warm the bay before it comes", HelpOf(Car(Heats) with { Surfaces = [Wet] }), StringComparison.Ordinal);
    }

    // "Heat less", where nothing heats.
    [Fact]
    public void AirTooDryNow_IsHeatedLess_OnlyWhereSomethingHeats()
    {
        Assert.Equal("Add moisture with the humidifier.", HelpAgainstDryAir(Moistens));
        Assert.Equal("This bay has nothing to add moisture with.", HelpAgainstDryAir(ClimateMeans.None));
        Assert.Equal("Heat less; this bay has nothing to add moisture with.", HelpAgainstDryAir(Heats));
        Assert.Equal("Add moisture with the humidifier, or heat less.", HelpAgainstDryAir(Heats with { Moisten = Moistens.Moisten }));
    }

    private static string? HelpAgainstDryAir(ClimateMeans means) =>
        StartAnswer.To(StartSituations.Of("dry air") with { Means = means }, StartCase.Day).Reasons.Single().Help?.ToString();

    private static SurfaceToPlan Wet => new("bonnet", 1, null, [StartCase.OneCoat], [new RiskTimes(true, null)]);

    private static CarToPlan Car(ClimateMeans means) => new("job-1", "bay-1", "bay-1", [], null, null, null) { Means = means };

    private static string? HelpOf(CarToPlan car) => new CarReasons(car, BayFree.Now, Hours).Before(Now).Single().Help?.ToString();

    private static string? HelpAgainstNeverDry(ClimateMeans means, bool isAirMoist = false) =>
        new CarReasons(Car(means) with { IsAirMoist = isAirMoist }, BayFree.Now, Hours).After(null, null).Single().Help?.ToString();
}
