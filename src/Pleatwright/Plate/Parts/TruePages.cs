using System.Globalization;

namespace Pleatwright.Plate.Parts;

/// <summary>A drawing at true size over as many pages as it takes, each with the line to check the printing by.</summary>
internal static class TruePages
{
    /// <summary>The most pages one sheet of preparation may come to.</summary>
    public const int MostPages = 500;

    /// <summary>Room for words at the left and right of the drawing, in millimetres.</summary>
    public static double Sides(Look look) => look.Large ? 15 : 10;

    /// <summary>Room for words above and below it, in millimetres.</summary>
    public static double Ends(Look look) => look.Large ? 12 : 8;

    /// <summary>The pages of a drawing, numbered from <paramref name="firstPage"/>.</summary>
    /// <exception cref="PlateTooLargeException">It takes more than <see cref="MostPages"/> pages.</exception>
    public static List<Page> Of(string heading, string lead, TrueDrawing drawing, PlateOptions options, int firstPage)
    {
        var look = options.Look;
        var upright = new Shares(drawing, Room(options.Paper, look));
        var sideways = new Shares(drawing, Room(options.Paper.Sideways, look));
        var (shares, paper) = sideways.Count < upright.Count ? (sideways, options.Paper.Sideways) : (upright, options.Paper);
        if (shares.Count > MostPages)
            throw new PlateTooLargeException(string.Create(CultureInfo.InvariantCulture,
                $"at true size this takes {shares.Count} pages of {paper.Name}; {MostPages} is the most. Use larger paper, or a smaller piece."));

        var places = new List<(int Column, int Row, Box Part)>();
        for (var row = 0; row < shares.Down.Pages; row++)
            for (var column = 0; column < shares.Across.Pages; column++)
                if (shares.Part(column, row) is var part && drawing.Touches(part)) places.Add((column, row, part));
        var grid = new PageGrid(shares.Across.Pages, shares.Down.Pages,
            places.Select((p, i) => (p, i)).ToDictionary(p => (p.p.Column, p.p.Row), p => firstPage + p.i));
        return [.. places.Select((place, i) => Lay(place, i))];

        Page Lay((int Column, int Row, Box Part) place, int index)
        {
            var title = places.Count == 1 ? heading : $"{heading} · {PageGrid.NameOf(place.Column, place.Row)}";
            var page = new Page(title, paper, look);
            page.Heading(title, lead, depth: index == 0 ? 0 : 1);
            var room = Room(paper, look);
            var part = place.Part;
            var move = new Spot(room.X + (room.Width - part.Width) / 2 - part.X, room.Y - part.Y);
            var placed = part.Moved(move.X, move.Y);
            page.Figure(FigureWords.True(title, lead), new Inset(drawing.Draw(part, look), move, placed), new Inset(drawing.Label(part, look), move));
            if (places.Count > 1)
                Joins.Draw(page, grid, new GridPlace(place.Column, place.Row, placed, shares.Overlap, new Spot(Sides(look), Ends(look))));
            CheckLine.Draw(page, options.Units);
            return page;
        }
    }

    // What a page has left for the drawing.
    private static Box Room(Paper paper, Look look)
    {
        var inner = Page.InnerOf(paper);
        var heading = Page.HeadingHeight(look);
        return new Box(inner.X + Sides(look), inner.Y + heading + Ends(look),
            inner.Width - 2 * Sides(look), inner.Height - heading - 2 * Ends(look) - CheckLine.Height(look));
    }

    private sealed class Shares
    {
        private readonly Box extent;

        public Shares(TrueDrawing drawing, Box room)
        {
            extent = drawing.Extent;
            Across = Share.Of(extent.Width, room.Width, drawing.Step.X, drawing.Overlap.X);
            Down = Share.Of(extent.Height, room.Height, drawing.Step.Y, drawing.Overlap.Y);
        }

        public Share Across { get; }

        public Share Down { get; }

        public Spot Overlap => new(Across.Overlap, Down.Overlap);

        public long Count => (long)Across.Pages * Down.Pages;

        public Box Part(int column, int row)
        {
            double left = column * (Across.Each - Across.Overlap), top = row * (Down.Each - Down.Overlap);
            return new Box(extent.X + left, extent.Y + top, Math.Min(Across.Each, extent.Width - left), Math.Min(Down.Each, extent.Height - top));
        }
    }

    // How a length is shared: pages, what each holds, and what it repeats of the one before.
    private readonly record struct Share(int Pages, double Each, double Overlap)
    {
        private const double Hair = 1e-6;

        public static Share Of(double length, double room, double step, double overlap)
        {
            if (length <= room + Hair) return new Share(1, length, 0);
            if (step > room) step = room; // one step is wider than the page: cut where the paper ends
            overlap = Math.Min(overlap, room / 2);
            var most = Math.Floor(room / step + Hair) * step;
            if (most <= overlap + Hair) overlap = 0;
            var pages = (int)Math.Min(1e6, Math.Ceiling((length - overlap) / (most - overlap) - Hair));
            var each = Math.Min(most, Math.Ceiling(((length - overlap) / pages + overlap) / step - Hair) * step);
            return new Share(pages, each, overlap);
        }
    }
}
