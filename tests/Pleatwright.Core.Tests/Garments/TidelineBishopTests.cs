using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;
using Pleatwright.Shopping;
using Pleatwright.Tests.Files;

namespace Pleatwright.Tests.Garments;

/// <summary>A bishop of our own in four sizes, one boat in the middle of each panel, made from the file to the plate.</summary>
public class TidelineBishopTests
{
    private static readonly Piece Own = PieceReader.Read(File.ReadAllBytes(Repository.Path("tests", "Pleatwright.Core.Tests", "Garments", "tideline-bishop.piece.json")));

    public static TheoryData<int> Sizes => [0, 1, 2, 3];

    private static Piece In(int size) => size == 0 ? Own : SizeTable.In(Own, Own.Sizes[size - 1]);

    [Fact]
    public void It_is_a_good_file_and_every_size_takes_it()
    {
        Assert.True(Schemas.FitsPiece(File.ReadAllText(Repository.Path("tests", "Pleatwright.Core.Tests", "Garments", "tideline-bishop.piece.json"))));
        Assert.Equal(["", "smallest", "larger", "largest"], SizeTable.Of(Own).Select(l => l.Name));
        Assert.All(SizeTable.Of(Own), l => Assert.Empty(l.Troubles));
    }

    [Theory, MemberData(nameof(Sizes))]
    public void A_boat_lies_in_the_middle_of_every_panel_in_every_size(int size)
    {
        var work = Work.Lay(In(size));
        var boat = work.Piece.Figure("boat")!;
        var middles = work.Piece.Placements.Select(p => Seat.Of(p, boat, work.Pleating, 0).Left + boat.Middle).Order();
        Assert.Equal(work.Pleating.Shares.Select(s => s.First - 1 + s.Pleats / 2), middles);
        Assert.DoesNotContain(Smocking.Prove(work), f => f.Severity != Severity.Note || f.Rule == "across-join");
    }

    [Theory, MemberData(nameof(Sizes))]
    public void It_goes_from_the_file_to_the_plate_the_sheets_and_the_shop(int size)
    {
        var piece = In(size);
        var order = Smocking.Plan(Work.Lay(piece));
        var plate = Smocking.Plate(order, Smocking.Prove(order.Work));
        Assert.All(PlateFormat.All, format => Assert.NotEmpty(format.Write(plate)));
        foreach (var kind in Enum.GetValues<PreparationKind>()) Assert.NotEmpty(PreparationSheets.Make(piece, kind, new PlateOptions()));
        var cloth = ShoppingList.Of([PieceNeeds.Of(order)], Stash.Empty).ClothToBuy;
        Assert.Equal(0, Math.IEEERemainder(cloth.Inches, 4.5), 6);
        Assert.Contains("left sleeve", new string([.. System.Text.Encoding.UTF8.GetString(PlateFormat.Html.Write(plate))]), StringComparison.Ordinal);
    }
}
