using System.Globalization;

namespace Pleatwright.Plate.Teaching;

/// <summary>A line for every kit: whose it is, which hand, and needles and pins counted out and back.</summary>
internal static class Register
{
    private static (string Words, double Share)[] ColumnsOf(int needles) =>
        [("Kit", 0.08), ("Name", 0.32), ("Hand", 0.12), ($"Needles out, {needles} each", 0.13), ("back", 0.11), ("Pins out", 0.13), ("back", 0.11)];

    public static List<Page> Of(ClassPack pack)
    {
        var look = pack.Plate.Options.Look;
        var columns = ColumnsOf(pack.Needles);
        List<Page> pages = [];
        for (int kit = 1, kits = pack.Cutting.Kits; kit <= kits;)
        {
            var page = new Page("Register", pack.Plate.Options.Paper, look);
            pages.Add(page);
            var box = page.Inner;
            var y = page.Heading("Register", "nobody leaves before the needles and pins are counted back", kit == 1 ? 0 : -1);
            var x = box.X;
            var heads = columns.Select(c => Wrapping.Lines(c.Words, look.Note, c.Share * box.Width - 2)).ToList();
            var leading = look.Note.Points * 0.42;
            y += leading * (heads.Max(h => h.Count) - 1); // all stand on one line, the last of each
            foreach (var (lines, share) in heads.Zip(columns.Select(c => c.Share)))
            {
                for (var i = 0; i < lines.Count; i++) page.Text(x + 1, y + Typeface.CapHeight(look.Note) + (i - lines.Count + 1) * leading, lines[i], look.Note);
                x += share * box.Width;
            }
            y += 5;
            var height = look.Large ? 13.0 : 9.2;
            var first = kit;
            for (; kit <= kits && y + (kit - first + 1) * height <= box.Bottom; kit++)
            {
                var line = y + (kit - first + 1) * height;
                page.Rule(box.X, line, box.Right, line, look.Fine);
                page.Text(box.X + 1, line - 2.4, kit.ToString(CultureInfo.InvariantCulture), look.Strong);
                if (kit > pack.Cutting.Students) page.Text(box.X + columns[0].Share * box.Width + 1, line - 2.4, "spare", look.Note);
            }
            page.Rule(box.X, y, box.Right, y, look.Fine);
            x = box.X;
            for (var i = 1; i < columns.Length; i++)
            {
                x += columns[i - 1].Share * box.Width;
                page.Rule(x, y, x, y + (kit - first) * height, look.Fine);
            }
        }
        return pages;
    }
}
