using CureWatch.Products;
using MathNet.Numerics.LinearAlgebra;

namespace CureWatch.Tests.Products;

/// <summary>
/// The fit of one stage again, by MathNet.Numerics 5.0.0: QR of the weighted rows with the priors below them, E counted in its prior's
/// deviations. Unknowns: ln D of each milestone, E, m where it is fitted.
/// </summary>
internal sealed class QrFit
{
    private readonly Matrix<double> _design;
    private readonly Vector<double> _seen;
    private readonly Matrix<double> _covariance;
    private readonly Priors _priors;
    private readonly int _milestones;
    private readonly bool _fitsExponent;

    public QrFit(SheetStage stage, Priors priors)
    {
        _priors = priors;
        _milestones = stage.Stage == Stage.Flash ? 2 : 1;
        _fitsExponent = priors.ExponentDeviation > 0;
        List<double[]> rows = [];
        List<double> seen = [];
        foreach (SheetRow row in stage.Rows)
        {
            double lnFrom = Math.Log(row.From.TotalHours), lnTo = Math.Log(row.To.TotalHours);
            if (_milestones == 2)
            {
                Add(row, 0, lnFrom, 0.10);
                Add(row, 1, lnTo, 0.10);
            }
            else
            {
                Add(row, 0, (lnFrom + lnTo) / 2, Math.Max(0.10, (lnTo - lnFrom) / 3.29));
            }
        }

        double[] believed = new double[Count];
        believed[_milestones] = 1;
        rows.Add(believed);
        seen.Add(priors.EnergyJmol / priors.EnergyDeviationJmol);
        if (_fitsExponent)
        {
            believed = new double[Count];
            believed[_milestones + 1] = 1 / priors.ExponentDeviation;
            rows.Add(believed);
            seen.Add(priors.Exponent / priors.ExponentDeviation);
        }

        _design = Matrix<double>.Build.DenseOfRowArrays(rows);
        _seen = Vector<double>.Build.DenseOfEnumerable(seen);
        var qr = _design.QR();
        Free = [.. Unscaled(qr.Solve(_seen))];
        Matrix<double> inverse = qr.R.SubMatrix(0, Count, 0, Count).Inverse();
        _covariance = inverse.TransposeAndMultiply(inverse);

        void Add(SheetRow row, int milestone, double lnHours, double deviation)
        {
            FitTerms terms = FitTerms.Of(row.Temperature, row.Humidity, ReferenceClimate.Usual, !_fitsExponent);
            double[] factors = Factors(milestone, terms.X, terms.Y);
            rows.Add([.. factors.Select(factor => factor / deviation)]);
            seen.Add((_fitsExponent ? lnHours : lnHours + terms.Y) / deviation);
        }
    }

    /// <summary>The minimum without bounds.</summary>
    public double[] Free { get; }

    public bool KeepsTheBounds =>
        Free[_milestones] is >= 20e3 and <= 110e3 && (!_fitsExponent || Free[_milestones + 1] is >= 0 and <= 1.5);

    private int Count => _milestones + (_fitsExponent ? 2 : 1);

    public double[] UnknownsOf(StageFit fit) =>
    [
        Math.Log(fit.ReferenceHours),
        .. fit.To is { } to ? [Math.Log(to.ReferenceHours)] : Array.Empty<double>(),
        fit.Law.ActivationEnergyJmol,
        .. _fitsExponent ? [fit.Law.HumidityExponent] : Array.Empty<double>(),
    ];

    public double VarianceOfLnHours(int milestone, double x, double y)
    {
        Vector<double> factors = Vector<double>.Build.DenseOfArray(Factors(milestone, x, y));
        return factors * (_covariance * factors);
    }

    /// <summary>The conditions of Karush, Kuhn and Tucker, which a convex sum meets at its minimum alone.</summary>
    public bool IsLeastInsideTheBounds(double[] unknowns)
    {
        Vector<double> scaled = Vector<double>.Build.DenseOfArray(unknowns);
        scaled[_milestones] /= _priors.EnergyDeviationJmol;
        Vector<double> slope = _design.TransposeThisAndMultiply((_design * scaled) - _seen);
        return unknowns.Select((v, i) => (v, slope[i], i - _milestones) switch
        {
            (20e3, var rises, 0) => rises > -1e-6,
            (110e3, var rises, 0) => rises < 1e-6,
            (0, var rises, 1) => rises > -1e-6,
            (1.5, var rises, 1) => rises < 1e-6,
            (< 20e3 or > 110e3, _, 0) or (< 0 or > 1.5, _, 1) => false,
            (_, var level, _) => Math.Abs(level) < 1e-6,
        }).All(met => met);
    }

    private double[] Factors(int milestone, double x, double y)
    {
        double[] factors = new double[Count];
        factors[milestone] = 1;
        factors[_milestones] = x * _priors.EnergyDeviationJmol;
        if (_fitsExponent)
        {
            factors[_milestones + 1] = -y;
        }

        return factors;
    }

    private IEnumerable<double> Unscaled(Vector<double> scaled) =>
        scaled.Select((v, i) => i == _milestones ? v * _priors.EnergyDeviationJmol : v);
}
