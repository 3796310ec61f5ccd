using Pleatwright.Bench.Model.Printing;
using Pleatwright.Plate.Teaching;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Printing;

/// <summary>What is printed, as chosen.</summary>
public class PrintTests
{
    public static TheoryData<int, int> Prints
    {
        get
        {
            var data = new TheoryData<int, int>();
            for (var piece = 0; piece < Tables.All.Length; piece++)
                for (var print = 0; print < Printable.All.Length; print++) data.Add(piece, print);
            return data;
        }
    }

    [Theory, MemberData(nameof(Prints))]
    public async Task Everything_on_offer_is_printed_of_every_kind_of_piece_in_every_format_or_a_sentence_says_why(int piece, int print)
    {
        var (desk, _) = Tables.Set(Tables.All[piece]);
        var choice = new PrintChoice(desk) { Sheet = Printable.All[print].Sheet, ForClass = Printable.All[print].ForClass, Class = new ClassOptions(2) };
        var (ask, fault) = await PrintAsk.OfAsync(desk, choice);
        var made = ask is null ? null : Made(ask, out fault);
        Assert.Equal(made is null, fault.Length > 0);
        if (made is null) { Assert.EndsWith(".", fault); return; }
        Assert.NotEmpty(made.Sheets);
        foreach (var format in ask!.Formats.Where(f => f.Ending is not (".zip" or ".pdf")))
        {
            Assert.NotEmpty(format.Write(made));
            Assert.EndsWith(format.Ending, ask.FileName(format));
        }
    }

    [Fact]
    public async Task A_size_is_printed_by_its_name()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var choice = new PrintChoice(desk) { Size = "larger" };
        var (ask, _) = await PrintAsk.OfAsync(desk, choice);
        Assert.Equal("Everything larger.pdf", ask!.FileName(ask!.Formats.First(f => f.Ending == ".pdf")));
    }

    // As it is made elsewhere: of text.
    private static Print? Made(PrintAsk ask, out string fault)
    {
        var read = PrintAsk.Read(ask.Write());
        Assert.Equal(ask.Write(), read.Write());
        (var made, fault) = Print.Make(read, Smocking.Lay(read.Piece));
        return made;
    }
}
