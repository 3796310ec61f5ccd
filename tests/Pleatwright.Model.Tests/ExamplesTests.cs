using Pleatwright.Bench.Model;
using Pleatwright.Chart;

namespace Pleatwright.Tests;

public class ExamplesTests
{
    [Fact]
    public void Every_example_that_comes_with_the_bench_can_be_read_and_laid()
    {
        Assert.NotEmpty(Examples.Names);
        Assert.All(Examples.Names, name => Assert.True(Work.Lay(Examples.Read(name)).Valleys > 0));
    }
}
