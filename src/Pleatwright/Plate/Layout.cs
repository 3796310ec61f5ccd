using System.Collections.Immutable;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate;

/// <summary>Lays a plate out on pages: the cover, then its sections on as few pages as will do.</summary>
internal static class Layout
{
    /// <summary>The most pages a plate may come to.</summary>
    public const int MostPages = 3000;

    // Running text is 9.5 points, so 8, which is that of captions, at the least, and 16 in large print; the chart from as large as serves to as small as can be counted (our own choice).
    private static readonly (double Tight, double Scale)[] Settings =
        [(1, 0.5), (0.96, 0.5), (0.96, 0.25), (0.92, 0.25), (0.92, 0.1), (0.88, 0.1), (0.88, 0), (0.842, 0)];

    // Beyond so many pages one more or less is not sought.
    private const int FewPages = 12;

    internal static ImmutableArray<Sheet> Compose(PlateDocument document)
    {
        var options = document.Options;
        var sections = PlateSections.Of(document);
        ImmutableArray<Section> covered = [.. sections.Select(s => s with { Items = [.. s.Items.Select(i => i is Labelled told ? new Labelled(told.Lines.RemoveAll(l => l.OnCover)) : i)] })];
        // From roomy to close; where the closest saves a page, the roomiest is sought that saves as many.
        var ways = Settings.SelectMany(Ways).ToList();
        var fronts = new Dictionary<(double, bool), ImmutableArray<Section>>();
        var charts = new Dictionary<double, ImmutableArray<ChartPages.ChartBand>>();
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
        var way = ways[close];
        var (set, begins) = Set(way, dry: false);
        // The cover tells on which pages the sections begin, so it is laid out last; it always takes one page.
        var contents = FrontsOf(way).Select(s => (s.Heading, 1)).Concat(begins.Select(b => (b.Section.Heading, b.Page)));
        set[0] = Cover.Lay(document, [.. contents], FrontsOf(way), way.Tight, way.Colours);
        var stamp = document.Verdict?.Headline ?? "";
        return [.. set.Select((page, i) => page.Finish(document.Title, i + 1, set.Count, stamp))];

        // With all the sections after the cover; with some on it; without what can be spared, too.
        IEnumerable<Way> Ways((double Tight, double Scale) setting)
        {
            yield return new(setting.Tight, setting.Scale, Fronts: false, Spares: true);
            yield return new(setting.Tight, setting.Scale, Fronts: true, Spares: true);
            if (sections.Any(s => s.Spare)) yield return new(setting.Tight, setting.Scale, Fronts: true, Spares: false);
            // without pictures of the other colour ways only where nothing else serves, and without a word of them only where that does not either
            if (setting != Settings[^1] || !Cover.HasColourWays(document)) yield break;
            yield return new(setting.Tight, setting.Scale, Fronts: true, Spares: false) { Colours = false };
            yield return new(setting.Tight, setting.Scale, Fronts: true, Spares: false) { Colours = false, Named = false };
        }

        ImmutableArray<Section> FrontsOf(Way way) =>
            !way.Fronts ? [] : fronts.TryGetValue((way.Tight, way.Colours), out var found) ? found : fronts[(way.Tight, way.Colours)] = Cover.Takes(document, sections, way.Tight, way.Colours);

        ImmutableArray<ChartPages.ChartBand> Chart(double scale)
        {
            if (charts.TryGetValue(scale, out var drawn)) return drawn;
            var (width, height) = Setting.ChartRoom(options);
            return charts[scale] = [.. ChartPages.Bands(document, width, height, scale)];
        }

        int Pages(int way) => Set(ways[way], dry: true).Pages.Count;

        (List<Page> Pages, List<(Section Section, int Page)> Begins) Set(Way way, bool dry)
        {
            List<Page> pages = [new Page("Cover", options.Paper, options.Look)];
            var front = FrontsOf(way);
            // what the cover says under its pictures is not said again
            var all = !way.Named || (way.Colours && Cover.ShowsColourWays(options)) ? covered : sections;
            return (pages, Setting.Set(document, all.RemoveAll(s => front.Any(f => f.Id == s.Id) || (s.Spare && !way.Spares)), pages, way.Tight, way.Scale, Chart, dry));
        }
    }

    // How it is laid out: at which share of their size running matter and the chart's panels are set, whether sections stand on the cover, and
    // whether those are there that can be spared.
    private readonly record struct Way(double Tight, double Scale, bool Fronts, bool Spares)
    {
        /// <summary>Whether the cover shows other colour ways.</summary>
        public bool Colours { get; init; } = true;

        /// <summary>Whether they are named where the cover does not show them.</summary>
        public bool Named { get; init; } = true;
    }
}
