using System.Collections.Immutable;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate;

/// <summary>Lays a plate out on pages: the order of its sections, the numbers of its pages.</summary>
internal static class Layout
{
    /// <summary>The most pages a plate may come to.</summary>
    public const int MostPages = 3000;

    // Running text is 9.5 points, so 8.3 at the least (our own choice).
    private static readonly double[] Tighter = [0.96, 0.92, 0.875];

    internal const string ProofHeading = "What the proof found";

    internal static ImmutableArray<Sheet> Compose(PlateDocument document)
    {
        var options = document.Options;
        // The cover tells on which pages the sections begin, so it is laid out last; it always takes one page.
        List<Page> pages = [new Page("", options.Paper, options.Look)];
        List<(string, int)> contents = [];
        if (document.Verdict is { } verdict) Matter(ProofHeading, verdict.Headline, 2, verdict.Lay);
        Matter("Key and materials", "before you begin", 2, flow =>
        {
            KeyPart.Lay(document, flow);
            MaterialsPart.Lay(document, flow);
            CautionsPart.Lay(flow);
        });
        Section("Chart", () => Add(ChartPages.Working(document.Work, options, pages.Count + 1)));
        if (options.TrueScaleChart) Section("Chart at true size", () => Add(ChartPages.TrueScale(document.Work, options, pages.Count + 1)));
        if (BackView.IsWanted(document.Order)) Section(BackView.Heading, () => pages.Add(BackView.Page(document)));
        if (document.HasDirections)
            Matter(DirectionsPart.Heading, DirectionsPart.Lead(options.Edition), options.Edition == Edition.Learner ? 2 : 1, flow => DirectionsPart.Lay(document, flow));
        pages[0] = Cover.Lay(document, contents);
        return [.. pages.Select((page, i) => page.Finish(document.Title, i + 1, pages.Count))];

        void Section(string name, Action lay)
        {
            var before = pages.Count;
            lay();
            if (pages.Count > before) contents.Add((name, before + 1)); // a piece without a stitch has no chart
        }

        // Running matter, set a little smaller where that keeps its last lines from a page of their own.
        void Matter(string heading, string lead, int columns, Action<Flow> lay) => Section(heading, () =>
        {
            var set = Set(1);
            if (!options.LargePrint && set.Count is > 1 and <= 8)
                foreach (var tight in Tighter)
                    if (Set(tight) is var tighter && tighter.Count < set.Count)
                    {
                        set = tighter;
                        break;
                    }
            Add(set);

            List<Page> Set(double tight)
            {
                List<Page> made = [];
                lay(new Flow(options, made, heading, lead, columns, tight));
                return made;
            }
        });

        void Add(List<Page> more)
        {
            if (pages.Count + more.Count > MostPages)
                throw new PlateTooLargeException(FormattableString.Invariant($"the plate comes to more than {MostPages} pages. Print the piece in parts, figure by figure."));
            pages.AddRange(more);
        }
    }
}
