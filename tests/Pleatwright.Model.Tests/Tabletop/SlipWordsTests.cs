using Pleatwright.Bench.Model.Tabletop;
using Pleatwright.Chart;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Tabletop;

/// <summary>What the lines of the drawer say, and what their buttons are called aloud.</summary>
public class SlipWordsTests
{
    [Fact]
    public void Bands_accents_and_figures_are_told_by_what_and_where_they_are()
    {
        var (piece, work) = (Tables.Full, Work.Lay(Tables.Full));
        Assert.Equal("Change the trellis band on gathering row 1", SlipWords.Change(piece.Bands[0]));
        Assert.Equal("Take off the cable band on gathering row 5", SlipWords.TakeOff(piece.Bands[1]));
        Assert.StartsWith("gathering row 1, ", SlipWords.Where(piece, piece.Bands[0]), StringComparison.Ordinal);
        Assert.Equal("Change the knot on valley 18, gathering row 2", SlipWords.Change(work, piece.Accents[0]));
        Assert.Equal("Take off the bullion on valley 9, gathering row 4", SlipWords.TakeOff(work, piece.Accents[1]));
        Assert.StartsWith("2 about valley 9, gathering row 4, ", SlipWords.Where(work, piece.Accents[1]), StringComparison.Ordinal);
        Assert.Equal("3 times", SlipWords.Times(piece, piece.Figures[0]));
        Assert.Equal("not on the cloth", SlipWords.Times(piece, piece.Figures[1]));
        Assert.Equal("Put boat on the cloth", SlipWords.PutOn(piece.Figures[0]));
    }
}
