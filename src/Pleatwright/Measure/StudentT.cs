namespace Pleatwright.Measure;

/// <summary>Student's t, as far as a range about a measured value needs it.</summary>
internal static class StudentT
{
    /// <summary>The t that leaves 2.5 % in either tail.</summary>
    /// <param name="freedom">Degrees of freedom, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Less than one degree of freedom.</exception>
    public static double TwoSided95(int freedom)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(freedom, 1);
        double low = 1.9, high = 13; // t runs from 12.71 at one degree of freedom down to 1.96
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            if (Within(middle, freedom) < 0.95) low = middle;
            else high = middle;
        }
        return (low + high) / 2;
    }

    /// <summary>Probability that Student's t lies between -t and t.</summary>
    /// <remarks>The finite series for whole degrees of freedom: Abramowitz and Stegun, 26.7.3 and 26.7.4.</remarks>
    public static double Within(double t, int freedom)
    {
        var theta = Math.Atan(t / Math.Sqrt(freedom));
        double sin = Math.Sin(theta), cos = Math.Cos(theta);
        if (freedom % 2 == 0)
        {
            double term = 1, sum = 1;
            for (var k = 1; k <= freedom / 2 - 1; k++) sum += term *= cos * cos * (2 * k - 1) / (2 * k);
            return sin * sum;
        }
        double odd = 0, next = cos;
        for (var k = 1; k <= (freedom - 1) / 2; k++)
        {
            odd += next;
            next *= cos * cos * (2 * k) / (2 * k + 1);
        }
        return 2 / Math.PI * (theta + sin * odd);
    }
}
