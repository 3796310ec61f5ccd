using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>What a picture of the finished piece costs: 6,000 cables as a thumbnail, on a screen, in print and from close by, beside laying the piece out.</summary>
internal static class StitchedCost
{
    public static void Measure()
    {
        var work = Filled();
        var laying = Machine.Median(() => Work.Lay(work.Piece));
        Console.WriteLine($"{work.Cables} cables on {work.Pleating.Pleats} pleats by {work.CableRows} rows; laid out in {laying:0.0} ms");
        Console.WriteLine("pixels            settled ms   painted ms   ns a pixel   painted/laid out   on one processor/on all");
        var settling = Machine.Median(() => _ = new StitchedPiece(work));
        var piece = new StitchedPiece(work);
        foreach (var (wide, frame) in (ReadOnlySpan<(int, Frame)>)[(200, piece.Whole), (1000, piece.Whole), (2000, piece.Whole), (2000, piece.Whole with { Width = 50, Height = 30 })])
        {
            var painter = new Painter(piece, frame, wide);
            var painting = Machine.Median(() => _ = painter.Paint());
            var alone = Machine.Median(() =>
            {
                var rgba = new byte[4 * painter.Wide * painter.High];
                var relief = painter.NewRelief();
                for (var band = 0; band < painter.Bands; band++) painter.PaintBand(band, relief, rgba);
            });
            Console.WriteLine($"{painter.Wide,5} × {painter.High,-5} {(frame == piece.Whole ? "" : "close"),-5} {settling,10:0} {painting,12:0} {painting * 1e6 / painter.Wide / painter.High,12:0} {painting / laying,18:0} {alone / painting,24:0.0}");
        }
    }

    // A panel of 12 pleats an inch with a figure of three colours over most of it.
    private static Work Filled()
    {
        var rows = Enumerable.Range(0, 46).Select(r => new string([.. Enumerable.Range(0, 131).Select(v => "abc"[(r / 6 + v / 17) % 3])])).ToArray();
        Floss[] threads = [Thread('a', "#b3202c"), Thread('b', "#1f4e79"), Thread('c', "#c99a4b")];
        return Work.Lay(new Piece("Filled", new ClothPlan(new Panel(Length.FromInches(11)), Gauge.Common, 10), [.. threads], [new Figure("filled", [.. rows])],
            [new Placement("filled", Centre.Middle, new GatheringRow(1), 0)]));
    }

    private static Floss Thread(char letter, string colour) => new(new ThreadKey(letter), colour, Colour.Parse(colour), Floss.DefaultStrands);
}
