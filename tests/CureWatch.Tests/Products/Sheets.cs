using CureWatch.Products;
using CureWatch.Units;

namespace CureWatch.Tests.Products;

/// <summary>Invented sheets, as short as a test can say them.</summary>
internal static class Sheets
{
    public static ProductSheet Of(params SheetStage[] stages) => Of(Carrier.Solvent, ReferenceClimate.Usual, stages);

    public static ProductSheet Of(Carrier carrier, ReferenceClimate reference, params SheetStage[] stages) =>
        new(
            "paint-test",
            1,
            ProductKind.Paint,
            carrier,
            "Test coating",
            "invented for the tests",
            reference,
            new SheetLimits(null, null, null, null, SheetLimits.UsualSpreadMinK, null),
            [.. stages],
            [],
            AfterWetting.Restart,
            []);

    public static SheetStage KeepDry(params SheetRow[] rows) => new(Stage.KeepDry, Mechanism.Cure, [.. rows]);

    public static SheetStage Flash(params SheetRow[] rows) => new(Stage.Flash, Mechanism.Evaporation, [.. rows]);

    public static ReferenceClimate Climate(double celsius, double percent) => new(new Celsius(celsius), new RelativeHumidity(percent));

    public static SheetRow Row(double celsius, double percent, double hours) => Row(celsius, percent, hours, hours);

    public static SheetRow Row(double celsius, double percent, double fromHours, double toHours) =>
        new(new Celsius(celsius), new RelativeHumidity(percent), TimeSpan.FromHours(fromHours), TimeSpan.FromHours(toHours));
}
