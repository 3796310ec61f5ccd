using Pleatwright.Order;
using Pleatwright.Shopping;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Shopping;

public class HoursOfWorkTests
{
    [Fact]
    public void Any_hand_makes_120_to_300_stitches_an_hour()
    {
        Assert.Equal((2m, 5m), HoursOfWork.Of(600, Pace.Unknown) is var h ? (h.Low, h.High) : default);
        Assert.Equal(new Pace { Said = (100, 200) }.Hours(600), HoursOfWork.Of(600, new Pace { Said = (100, 200) }));
    }

    [Fact]
    public void The_hours_of_a_piece_are_those_of_the_shopping_list()
    {
        var order = Planner.Plan(Plates.Example("harbour-wall"), Effort.Drawing);
        var pace = new Pace { Sittings = [new(210, 60), new(150, 45)], Besides = new(1, 2) };
        var list = ShoppingList.Of([PieceNeeds.Of(order)], Stash.Empty);
        Assert.Equal(Reckoning.Of(list, Stash.Empty.Rates, pace).Hours, HoursOfWork.Of(order, pace).Rounded(2));
    }

    [Theory]
    [InlineData(0, 0, "half an hour")]
    [InlineData(0.2, 0.9, "half an hour to 1 hour")]
    [InlineData(0.9, 1.2, "half an hour to 1½ hours")]
    [InlineData(1.2, 3.1, "1 to 3½ hours")]
    [InlineData(1.6, 3.9, "1½ to 4 hours")]
    [InlineData(3.9, 9.7, "3 to 10 hours")]
    [InlineData(8, 8, "8 hours")]
    [InlineData(1200, 3000, "1,200 to 3,000 hours")]
    public void In_words(double low, double high, string words) => Assert.Equal(words, HoursOfWork.Say(new Between((decimal)low, (decimal)high)));
}
