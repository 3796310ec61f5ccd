using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Proof;
using Pleatwright.ReadBack;

namespace Pleatwright.Plate;

/// <summary>
/// The directions as they stand in what is printed, whatever it is, for the reader that knows only words; and the reader's word on them.
/// </summary>
internal static partial class PrintedWords
{
    /// <summary>What is said on a plate, a page or a terminal whose directions were read and gave the very piece.</summary>
    public const string Proved = "Checked: the directions, followed stitch by stitch, give this very piece.";

    /// <summary>In what the words differ from the work; nothing when whoever follows them works the very piece.</summary>
    public static List<string> Differences(string words, WorkingOrder order, UnitSystem units = UnitSystem.Both) => Comparing.Differences(Reader.Read(words), order.Work, ExpectedOf(order, units));

    /// <summary>
    /// Writes a plate and reads its directions back from what was written. Where they do not give the very piece, or squeeze a row, it is
    /// written again and says so.
    /// </summary>
    /// <param name="plate">The plate.</param>
    /// <param name="write">Writes it.</param>
    /// <param name="words">The words of the directions in what was written.</param>
    public static T Proving<T>(PlateDocument plate, Func<PlateDocument, T> write, Func<T, string> words)
    {
        var made = write(plate);
        if (!plate.HasDirections) return made;
        return Doubts(words(made), plate.Order, plate.Options.Units) is { IsEmpty: false } doubts ? write(plate.Doubted(Verdict.Of(plate.Verdict, doubts))) : made;
    }

    /// <summary>What is to be said against directions: that they do not give the very piece, or squeeze a row.</summary>
    public static ImmutableArray<Finding> Doubts(string words, WorkingOrder order, UnitSystem units = UnitSystem.Both)
    {
        var reading = Reader.Read(words);
        var differences = Comparing.Differences(reading, order.Work, ExpectedOf(order, units));
        var doubts = ImmutableArray.CreateBuilder<Finding>();
        var place = new Place(new CableRow(0), new CableRow(order.Work.CableRows - 1), new Valley(1), new Valley(order.Work.Valleys));
        if (differences.Count > 0)
            doubts.Add(new(Verdict.ReadBackRule, Severity.Error, place, $"The directions were read back, and do not give the chart. {differences[0]}", "Stitch from the chart, not from the directions, and tell those who made this program."));
        foreach (var step in reading.Squeezed)
            doubts.Add(new(Verdict.ReadBackRule, Severity.Warning, place, FormattableString.Invariant($"Step {step} is squeezed between two finished rows."), "Let the run that is fixed there go where it is best."));
        return doubts.ToImmutable();
    }

    /// <summary>
    /// The words of a student's page, for each hand and way of holding the work: what it says step by step, whatever its script shows at once.
    /// </summary>
    public static IEnumerable<(Hand Hand, string Words)> OfStudentPage(string page)
    {
        const string begin = "<script type=\"application/json\" id=\"plate\">";
        var from = page.IndexOf(begin, StringComparison.Ordinal) + begin.Length;
        using var data = JsonDocument.Parse(page[from..page.IndexOf("</script>", from, StringComparison.Ordinal)]);
        foreach (var hand in (Hand[])[Hand.Right, Hand.Left])
            foreach (var said in (string[])["said", "saidSideways"])
            {
                var text = new StringBuilder();
                foreach (var item in data.RootElement.GetProperty("hands").GetProperty(hand == Hand.Left ? "left" : "right").GetProperty("items").EnumerateArray())
                    foreach (var words in (item.TryGetProperty(said, out var own) ? own : item.GetProperty("said")).EnumerateArray())
                    {
                        if (words[0].GetString() == "step" && item.TryGetProperty("step", out var step)) text.Append(step.GetInt32()).Append(' ');
                        text.Append(words[1].GetString()).Append(' ');
                    }
                yield return (hand, text.ToString());
            }
    }

    /// <summary>The words of a text plate's directions.</summary>
    public static string OfText(string text)
    {
        var from = text.LastIndexOf("\n\nDirections\n----------\n", StringComparison.Ordinal);
        if (from < 0) return "";
        var to = text.LastIndexOf($"\n\n{CautionsPart.Heading}\n", StringComparison.Ordinal);
        var words = text[(from + "\n\nDirections\n----------\n".Length)..(to < from ? text.Length : to)];
        return Mark().Replace(words, "");
    }

    /// <summary>The words of a web page's directions.</summary>
    public static string OfHtml(string page)
    {
        var from = page.IndexOf("<section id=\"directions\"", StringComparison.Ordinal);
        if (from < 0) return "";
        var start = page.IndexOf("</h2>", from, StringComparison.Ordinal);
        var to = page.IndexOf("</section>", from, StringComparison.Ordinal);
        return Unescaped(Tag().Replace(page[start..to], " "));
    }

    /// <summary>The words of the directions on printed pages, in the order they are set.</summary>
    public static string OfSheets(IEnumerable<Sheet> sheets)
    {
        var text = new StringBuilder();
        foreach (var sheet in sheets)
            foreach (var words in sheet.Marks.OfType<Lettering>())
                if (words.Part == Sections.PlateSections.DirectionsId) text.Append(words.Text).Append(' ');
        return text.ToString();
    }

    // What the order holds beside the chart, as plain values.
    private static Expected ExpectedOf(WorkingOrder order, UnitSystem units)
    {
        return new()
        {
            Back = [.. order.Backsmock.Rows.Select(r => new ReadBackRow(r.Row.Number, r.Begin.Number, r.End.Number))],
            Length = order.Work.Piece.Working.WorkingLength.Say(units),
            Needlefuls = (order.Backsmock.Needlefuls, order.Bands.AccentNeedlefuls),
            Threads =
            [
                .. order.Steps.Select(s => new ReadThread(s.Number, s.RestFrom, order.LongerBy(s) > Length.Zero ? order.Work.Piece.Working.Longer.Say(units) : "", s.GoesOn ? Phrases.Roughly(s.Left, units) : "")),
            ],
            BandRests = order.Bands.Steps.Index().Where(s => s.Item.RestFrom > 0).ToImmutableDictionary(s => s.Index + 1, s => s.Item.RestFrom),
        };
    }

    private static string Unescaped(string text) => text.Replace("&lt;", "<", StringComparison.Ordinal).Replace("&gt;", ">", StringComparison.Ordinal)
        .Replace("&quot;", "\"", StringComparison.Ordinal).Replace("&#39;", "'", StringComparison.Ordinal).Replace("&amp;", "&", StringComparison.Ordinal);

    [GeneratedRegex("<[^>]*>", RegexOptions.CultureInvariant)]
    private static partial Regex Tag();

    [GeneratedRegex(@"^ *(?:\[ \]|==>)", RegexOptions.CultureInvariant | RegexOptions.Multiline)]
    private static partial Regex Mark();
}
