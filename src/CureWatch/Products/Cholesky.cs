namespace CureWatch.Products;

/// <summary>A symmetric positive definite matrix, factored once into L·Lᵀ to be solved with and inverted.</summary>
/// <remarks>Source (law): Cholesky's factorisation; three or four unknowns of any units need no package.</remarks>
internal sealed class Cholesky
{
    private readonly double[,] _lower;

    /// <summary>Factors a matrix.</summary>
    /// <param name="matrix">Square and symmetric; only its lower triangle is read.</param>
    /// <exception cref="InvalidOperationException">The matrix is not positive definite, NaN included.</exception>
    public Cholesky(double[,] matrix)
    {
        int size = matrix.GetLength(0);
        _lower = new double[size, size];
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column <= row; column++)
            {
                double rest = matrix[row, column];
                for (int k = 0; k < column; k++)
                {
                    rest -= _lower[row, k] * _lower[column, k];
                }

                _lower[row, column] = row == column ? Pivot(rest) : rest / _lower[column, column];
            }
        }
    }

    /// <summary>Finds v with matrix · v = right.</summary>
    /// <param name="right">The right side, as long as the matrix is wide.</param>
    /// <returns>The solution v.</returns>
    public double[] Solve(double[] right)
    {
        double[] v = [.. right];
        for (int row = 0; row < v.Length; row++)
        {
            for (int k = 0; k < row; k++)
            {
                v[row] -= _lower[row, k] * v[k];
            }

            v[row] /= _lower[row, row];
        }

        for (int row = v.Length - 1; row >= 0; row--)
        {
            for (int k = row + 1; k < v.Length; k++)
            {
                v[row] -= _lower[k, row] * v[k];
            }

            v[row] /= _lower[row, row];
        }

        return v;
    }

    /// <summary>Inverts the matrix.</summary>
    /// <returns>The inverse, symmetric to rounding.</returns>
    public double[,] Inverse()
    {
        int size = _lower.GetLength(0);
        var inverse = new double[size, size];
        for (int column = 0; column < size; column++)
        {
            double[] unit = new double[size];
            unit[column] = 1;
            double[] solved = Solve(unit);
            for (int row = 0; row < size; row++)
            {
                inverse[row, column] = solved[row];
            }
        }

        return inverse;
    }

    private static double Pivot(double square) =>
        square > 0 ? Math.Sqrt(square) : throw new InvalidOperationException("The matrix is not positive definite.");
}
