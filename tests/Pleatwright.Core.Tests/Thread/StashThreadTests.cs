using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class StashThreadTests
{
    [Fact]
    public void What_is_left_of_a_thread_is_whole_skeins_and_a_part()
    {
        StashThread Left(double skeins) => new("rope", Colour.Black, skeins);
        Assert.Equal([8000, 8000, 4000], Left(2.5).Lengths().Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Equal([8000, 8000, 8000], Left(2.9999999999).Lengths().Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Equal([8000, 8000], Left(900).Lengths(2).Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Empty(Left(0).Lengths());
    }
}
