using System.Collections.Immutable;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate;

/// <summary>Lays a plate out on pages: the cover, then its sections on as few pages as will do.</summary>
internal static class Layout
{
    /// <summary>The most pages a plate may come to.</summary>
    public const int MostPages = 3000;

    // Running text is 9.5 points, so 8.1 at the least; the chart from as large as serves to as small as can be counted (our own choice).
    private static readonly (double Tight, double Scale)[] Settings =
        [(1, 0.5), (0.96, 0.5), (0.96, 0.25), (0.92, 0.25), (0.92, 0.1), (0.88, 0.1), (0.88, 0), (0.855, 0)];

    // Beyond so many pages one more or less is not sought.
    private const int FewPages = 12;

    internal static ImmutableArray<Sheet> Compose(PlateDocument document)
    {
        var options = document.Options;
        var sections = PlateSections.Of(document);
        var spared = sections.RemoveAll(s => s.Spare);
        // From roomy to close; where the closest saves a page, the roomiest is sought that saves as many.
        var ways = Settings.Select(s => options.LargePrint ? s with { Tight = 1 } : s).Distinct()
            .SelectMany(s => (spared.Length < sections.Length ? (ImmutableArray<Section>[])[sections, spared] : [sections]).Select(of => (Setting: s, Of: of))).ToList();
        var (roomy, close) = (0, 0);
        var pages = Pages(0);
        if (pages is > 2 and <= FewPages && Pages(ways.Count - 1) is var fewest && fewest < pages)
        {
            (roomy, close) = (0, ways.Count - 1);
            while (close - roomy > 1)
            {
                var middle = (roomy + close) / 2;
                if (Pages(middle) <= fewest) close = middle;
                else roomy = middle;
            }
        }
        var (set, begins) = Set(ways[close].Setting, ways[close].Of, dry: false);
        // The cover tells on which pages the sections begin, so it is laid out last; it always takes one page.
        set[0] = Cover.Lay(document, [.. begins.Select(b => (b.Section.Heading, b.Page))]);
        var stamp = document.Verdict?.Headline ?? "";
        return [.. set.Select((page, i) => page.Finish(document.Title, i + 1, set.Count, stamp))];

        int Pages(int way) => Set(ways[way].Setting, ways[way].Of, dry: true).Pages.Count;

        (List<Page> Pages, List<(Section Section, int Page)> Begins) Set((double Tight, double Scale) setting, ImmutableArray<Section> some, bool dry)
        {
            List<Page> pages = [new Page("Cover", options.Paper, options.Look)];
            return (pages, Setting.Set(document, some, pages, setting.Tight, setting.Scale, dry));
        }
    }
}
