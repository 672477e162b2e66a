using CsCheck;
using CureWatch.Products;
using MathNet.Numerics.LinearAlgebra;

namespace CureWatch.Tests.Products;

public class CholeskyTests
{
    private static readonly Gen<double[,]> PositiveDefinite =
        Gen.Int[1, 5].SelectMany(size => Gen.Double[-3, 3].Array2D[size + 2, size])
            .Select(Squared)
            .Where(square => Of(square).ConditionNumber() < 1e6);

    /// <summary>Source: MathNet.Numerics 5.0.0, LU.</summary>
    [Fact]
    public void Inverse_OfARandomMatrix_IsMathNets() =>
        PositiveDefinite.Sample(
            square =>
            {
                Matrix<double> inverse = Of(square).Inverse();
                return (Of(new Cholesky(square).Inverse()) - inverse).InfinityNorm() < 1e-8 * inverse.InfinityNorm();
            },
            iter: 1000);

    [Fact]
    public void Solution_TimesTheMatrix_IsTheRightSide()
    {
        double[] v = new Cholesky(new double[,] { { 4, 2 }, { 2, 3 } }).Solve([8, 8]);
        Assert.Equal([1, 2], v, (a, b) => Math.Abs(a - b) < 1e-12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Matrix_ThatIsNotPositiveDefinite_IsRefused(double corner) =>
        Assert.Throws<InvalidOperationException>(() => new Cholesky(new double[,] { { 1, 0 }, { 0, corner } }));

    private static Matrix<double> Of(double[,] values) => Matrix<double>.Build.DenseOfArray(values);

    private static double[,] Squared(double[,] values) => Of(values).TransposeThisAndMultiply(Of(values)).ToArray();
}
