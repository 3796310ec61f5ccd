using System.Collections.Immutable;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Sections;

/// <summary>The sections of a plate, in the order they stand in whatever it is written in. To add one, declare it here.</summary>
internal static class PlateSections
{
    /// <summary>What the sections are known by.</summary>
    public const string KeyId = "key", ChartId = "chart", TrueChartId = "true-size", StitchesId = "stitches", BackId = "back", MaterialsId = "materials", DirectionsId = "directions", CareId = "care";

    /// <summary>The sections of a plate; those that have nothing in them are left out.</summary>
    public static ImmutableArray<Section> Of(PlateDocument plate)
    {
        var work = plate.Work;
        var drawn = plate.Published.Stitches(plate.Options.Levels, plate.Options.Look);
        var stitched = work.Runs.Length > 0 || ThreadShapes.Spans(work).Any();
        ImmutableArray<Section> sections =
        [
            .. Where(plate.Threads.Length + plate.Signs.Length > 0, new Section(KeyId, "Key", null, 3, [.. plate.Threads.Select(t => new KeyThread(t, ThreadWords(t))), .. plate.Signs.Select(s => new KeySign(s))])
            {
                Front = true, LargeColumns = 2, MostColumns = 4,
            }),
            .. Where(stitched, new Section(ChartId, "Chart", ChartPages.Lead(plate), 1, [new TheChart()])),
            .. Where(stitched && plate.Options.TrueScaleChart, new Section(TrueChartId, ChartPages.TrueScaleHeading, null, 1, [new TheTrueChart()]) { Apart = true }),
            .. Where(!drawn.IsEmpty, new Section(StitchesId, "The stitches", StitchDrawings.Lead, 3, [.. drawn.Select((s, i) => new StitchShown(s, i))]) { Front = true }),
            .. Where(BackView.IsWanted(plate.Order), new Section(BackId, BackView.Heading, BackView.Lead(work), 1, [new Words(BackView.Words(plate.Order), Tone.Remark), new TheBack()])
            {
                Spare = plate.Options.Edition == Edition.Plate,
            }),
            new(MaterialsId, "Materials", null, 3, [.. plate.Materials.SelectMany(g => Group(g))]),
            new(CareId, CautionsPart.Heading, null, 1, [new Framed(CautionsPart.Heading, plate.Cautions)]) { Front = true },
            .. plate.HasDirections ? [Directions(plate)] : ImmutableArray<Section>.Empty,
        ];
        // learners have the chart on pages of its own: what stands on part of a page comes before it
        return plate.Options.Edition == Edition.Learner ? [.. sections.OrderBy(s => s.Id is ChartId or TrueChartId or BackId or DirectionsId)] : sections;
    }

    private static ImmutableArray<Section> Where(bool wanted, Section section) => wanted ? [section] : [];

    private static string ThreadWords(ThreadEntry thread) =>
        thread.Strands + (thread.IsUsed ? $"; {thread.Stitches}; {thread.SkeinWords}" : "; none needed")
        + (thread.Note.Length > 0 ? $". {thread.Note}" : "");

    private static ImmutableArray<Item> Group(MaterialGroup group) => [new Headed(group.Heading), new Labelled(group.Lines)];

    private static Section Directions(PlateDocument plate)
    {
        if (plate.Options.Edition == Edition.Learner)
        {
            var last = plate.Directions.Max(d => d.Step?.Number ?? 0).ToString(System.Globalization.CultureInfo.InvariantCulture);
            return new(DirectionsId, DirectionsPart.Heading, plate.IsProved ? PrintedWords.Proved : "step by step", 2, [.. plate.Directions.Select(d => Told(d, last))]);
        }
        var table = plate.Table;
        return new(DirectionsId, DirectionsPart.Heading, plate.IsProved ? PrintedWords.Proved : "a line a run", 2, [.. table.Lead.Select(l => new Words(l, Tone.Remark)), .. table.Blocks.SelectMany(Block)]);

        IEnumerable<Item> Block(Order.Telling.TableBlock block)
        {
            if (block.Heading.Length > 0) yield return new Headed(block.Heading, block.Lines.IsEmpty ? 3 : 5);
            foreach (var note in block.Notes) yield return new Words(note, Tone.Remark);
            if (block.Lines.Length > 0) yield return new Lines(block, table.Blocks);
            foreach (var after in block.After) yield return new Words(after, Tone.Remark);
        }
    }

    private static Item Told(Direction direction, string last) => direction.Kind switch
    {
        DirectionKind.Heading => new Headed(direction.Text, 9),
        DirectionKind.Step => new Step(direction.Step?.Number.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "", direction.Text, last),
        DirectionKind.LevelCheck => new Words(direction.Text, Tone.Check),
        _ => new Words(direction.Text, Tone.Remark),
    };
}
