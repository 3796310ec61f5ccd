using CsCheck;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Measure;

public class StudentTTests
{
    // NIST/SEMATECH e-Handbook of Statistical Methods, critical values of Student's t, column 0.975.
    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(2, 4.303)]
    [InlineData(3, 3.182)]
    [InlineData(4, 2.776)]
    [InlineData(10, 2.228)]
    [InlineData(30, 2.042)]
    [InlineData(100, 1.984)]
    public void Student_t_agrees_with_the_table(int freedom, double t) => Assert.Equal(t, StudentT.TwoSided95(freedom), 3);

    [Fact]
    public void Student_t_agrees_with_a_general_library() => Gen.Int[1, 150].Sample(freedom =>
        Assert.Equal(MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, freedom, 0.975), StudentT.TwoSided95(freedom), 6));
}
