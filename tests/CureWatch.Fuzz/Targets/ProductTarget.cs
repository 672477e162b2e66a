using System.Text;
using CureWatch.Products;
using CureWatch.Service.Commands;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>A product sheet: what is taken can be fitted, and the fit is shown in numbers.</summary>
internal sealed class ProductTarget() : DocumentTarget<ProductSheet>("product")
{
    public override IEnumerable<byte[]> Seeds =>
    [
        .. Shipped.Products,
        Encoding.UTF8.GetBytes(
            """
            {"product":"p","revision":1,"kind":"paint","carrier":"water","stages":[
              {"stage":"flash","rows":[{"temperatureC":20,"humidityPct":50,"from":"00:01:00","to":"00:03:00"}]},
              {"stage":"keep-dry","rows":[{"temperatureC":10,"humidityPct":40,"at":"12:00:00"},{"temperatureC":30,"humidityPct":60,"at":"2.00:00:00"}]}]}
            """),
    ];

    protected override (long Fixed, long PerByte) Allowance => (8_000_000, 4_000);

    protected override ProductSheet? Read(byte[] input, Faults faults) => ProductFile.Parse(Name, input, faults);

    protected override void Check(ProductSheet read, byte[] input)
    {
        BrokenPromiseException.Unless(Ids.Allows(read.Product) && read.Revision is >= 1 and <= 100_000, "an id or a revision beyond its range");
        BrokenPromiseException.Unless(read.Reference.Temperature.Degrees is >= -30 and <= 100, "a reference beyond its range");
        SheetFit fit = SheetFit.Of(read);
        foreach (StageFit stage in fit.Stages)
        {
            BrokenPromiseException.Unless(
                stage.Law is { ActivationEnergyJmol: >= 19_999 and <= 110_001, HumidityExponent: >= -1e-9 and <= 1.500001 },
                $"{stage.Stage} is fitted beyond what a law may be: {stage.Law.ActivationEnergyJmol} J/mol, exponent {stage.Law.HumidityExponent}");
            BrokenPromiseException.Unless(double.IsFinite(stage.ReferenceHours) && stage.ReferenceHours > 0, $"{stage.Stage} takes {stage.ReferenceHours} h");
        }

        BrokenPromiseException.Unless(!FitText.Of(fit).Contains("NaN", StringComparison.Ordinal), "a fit that is no number");
    }
}
