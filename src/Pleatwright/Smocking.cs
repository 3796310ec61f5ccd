using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Proof;

namespace Pleatwright;

/// <summary>
/// Picture smocking from a piece file to a plate in five verbs: read, lay, prove, plan, plate. Begin here.
/// </summary>
/// <remarks>
/// Every verb is pure: it takes values that never change and gives another, touches no file, network, clock or console, and gives
/// the same for the same. All may be called from any number of threads at once, on the same values too. Only
/// <see cref="Plan(Work, Effort, IProgress{double}?, CancellationToken, CancellationToken)"/>, and writing a plate, may take longer than a hand notices.
/// </remarks>
/// <example>
/// From a piece file to a printed plate:
/// <code>
/// using Pleatwright;
/// using Pleatwright.Plate.Writers;
///
/// var piece = Smocking.Read(File.ReadAllBytes("examples/harbour-morning.piece.json"));
/// var work = Smocking.Lay(piece);
/// var findings = Smocking.Prove(work);
/// var order = Smocking.Plan(work);
/// File.WriteAllBytes("harbour-morning.pdf", PlateFormat.Pdf.Write(Smocking.Plate(order, findings)));
/// </code>
/// </example>
public static class Smocking
{
    /// <summary>Reads a piece from the bytes of a piece file, or of a plate (PDF, SVG or HTML) that carries one.</summary>
    /// <param name="file">The file, whole; a piece file as UTF-8. At most <see cref="PieceReader.MostBytes"/> bytes.</param>
    /// <returns>The piece, just as the file says: nothing is guessed and nothing is dropped.</returns>
    /// <exception cref="PieceFormatException">
    /// It is no piece file of a format known here and carries none, or more than one. The exception gives the line and the column of the fault, what was found there and what would serve.
    /// </exception>
    /// <example>
    /// A fault is told where it stands:
    /// <code>
    /// using Pleatwright;
    /// using Pleatwright.Files;
    ///
    /// try
    /// {
    ///     Smocking.Read("""{ "pleatwright": 1, "cloth": { "form": "panel", "finishedWidth": "11" } }""");
    /// }
    /// catch (PieceFormatException fault)
    /// {
    ///     Console.WriteLine(fault.Located("kite.piece.json"));
    /// }
    /// // prints:
    /// // kite.piece.json:1:66: “finishedWidth” must be a length with its unit, such as "3/8 in" or "45 cm", but the text “11” was found.
    /// </code>
    /// </example>
    /// <seealso cref="PieceWriter">writes it back</seealso>
    public static Piece Read(ReadOnlySpan<byte> file) => PieceFinder.Read(file).Piece;

    /// <summary>Reads a piece from the text of a piece file, or of a plate (SVG or HTML) that carries one.</summary>
    /// <param name="text">The text, whole; at most <see cref="PieceReader.MostBytes"/> bytes as UTF-8.</param>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte})" path="/returns"/>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte})" path="/exception"/>
    public static Piece Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Lays a piece out on its pleats, stitch by stitch.</summary>
    /// <param name="piece">The piece, read from a file or made in code.</param>
    /// <returns>Every cable, half stitch, band and accent in its place, and with them what fell off the cloth.</returns>
    /// <exception cref="ArgumentException">
    /// The piece names a figure, thread or stitch that there is not, its cloth cannot be made, or it lays more stitches than
    /// <see cref="Work.MostCellsLaid"/>, <see cref="Work.MostBandStitches"/> or <see cref="Work.MostAccentsLaid"/>. A piece that was read from a file can
    /// only lay too many.
    /// </exception>
    /// <example>
    /// How much cloth, and what lies where:
    /// <code>
    /// using Pleatwright;
    /// using Pleatwright.Chart;
    ///
    /// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/harbour-morning.piece.json")));
    /// var plan = work.Pleating;
    /// Console.WriteLine($"{plan.Pleats} pleats from {plan.CutWidth.Inches:0.##} in of cloth, {plan.Fullness:0.#} to 1");
    /// Console.WriteLine($"{work.Cables} cables in {work.Runs.Length} runs");
    /// Console.WriteLine(work.ThreadAt(new Valley(88), new CableRow(15)));
    /// // prints:
    /// // 176 pleats from 42.99 in of cloth, 3.8 to 1
    /// // 725 cables in 41 runs
    /// // r
    /// </code>
    /// </example>
    public static Work Lay(Piece piece) => Work.Lay(piece);

    /// <summary>Proves a work: whether it can be stitched, covers the cloth and sits level.</summary>
    /// <param name="work">The work.</param>
    /// <returns>What was found: errors first, then warnings, then notes; within each by rule, and by place from the top down.</returns>
    /// <example>
    /// What stands in the way, and what would mend it:
    /// <code>
    /// using Pleatwright;
    /// using Pleatwright.Proof;
    ///
    /// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/flawed-kite.piece.json")));
    /// foreach (var finding in Smocking.Prove(work))
    ///     if (finding.Severity == Severity.Error) Console.WriteLine($"{finding.Message} {finding.Remedy}");
    /// // prints:
    /// // “tag” reaches 1 pleat into the seam pleats at the right edge, row 0 (gathering row 1). Move it in, make it or its repeats narrower, or plan a wider piece; the seam pleats are undone into the seam.
    /// </code>
    /// </example>
    public static ImmutableArray<Finding> Prove(Work work) => Prove(work, Proofreading.Rules);

    /// <summary>Proves a work by rules of your choice.</summary>
    /// <param name="work">The work.</param>
    /// <param name="rules">The rules, in the order in which findings of one severity are told: some of <see cref="Proofreading.Rules"/>, or your own, or both.</param>
    /// <inheritdoc cref="Prove(Work)" path="/returns"/>
    /// <example>
    /// A rule of one's own beside the usual ones:
    /// <code>
    /// using Pleatwright;
    /// using Pleatwright.Chart;
    /// using Pleatwright.Proof;
    ///
    /// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/quay-yoke.piece.json")));
    /// foreach (var finding in Smocking.Prove(work, [.. Proofreading.Rules, new ShortForBeginners()]))
    ///     if (finding.Rule == "short-for-beginners") Console.WriteLine(finding.Message);
    /// // prints:
    /// // A run of 27 cables is long for a first piece.
    ///
    /// class ShortForBeginners : Rule
    /// {
    ///     public override string Name => "short-for-beginners";
    ///
    ///     public override void Check(Work work, Findings findings)
    ///     {
    ///         foreach (var run in work.Runs)
    ///             if (run.Cables > 26 &amp;&amp; Place.Of(run) is var place &amp;&amp; findings.Tells(Severity.Note, place))
    ///                 findings.Add(Severity.Note, place, $"A run of {run.Cables} cables is long for a first piece.", "Break it with another thread.");
    ///     }
    /// }
    /// </code>
    /// </example>
    public static ImmutableArray<Finding> Prove(Work work, ImmutableArray<Rule> rules) => Proofreading.Read(work, rules);

    /// <summary>Plans the order to work in, and with it the thread: every step, every start, every needleful.</summary>
    /// <param name="work">The work; it need not be free of errors.</param>
    /// <param name="effort">How long a better order is sought: usually as for a plate, which may take a second or more on a large and tangled piece.</param>
    /// <param name="progress">Told how much is done, 0 to 1 and never less than before, now and then, on the calling thread.</param>
    /// <param name="cancel">Stops the planning.</param>
    /// <param name="enough">Ends the search: the best order found so far is handed out, however far the planning is.</param>
    /// <returns>The order; the same for the same work and effort, unless the search was ended.</returns>
    /// <exception cref="OperationCanceledException">The planning was stopped.</exception>
    /// <example>
    /// Where to begin, and the thread to buy:
    /// <code>
    /// using Pleatwright;
    ///
    /// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/first-pennant.piece.json")));
    /// var order = Smocking.Plan(work);
    /// var first = order.Steps[0];
    /// Console.WriteLine($"Begin with {first.Cables} cables on row {first.Row.Index}, from valley {first.From.Number} to {first.To.Number}.");
    /// foreach (var floss in order.Cutting().Flosses)
    ///     Console.WriteLine($"Skeins of {floss.Threads[0].Name}: {floss.Skeins}");
    /// // prints:
    /// // Begin with 21 cables on row 5, from valley 14 to 34.
    /// // Skeins of pennant blue: 1
    /// // Skeins of near the cloth’s colour, for the back: 1
    /// </code>
    /// </example>
    public static WorkingOrder Plan(Work work, Effort effort = Effort.Plate, IProgress<double>? progress = null, CancellationToken cancel = default, CancellationToken enough = default) =>
        Planner.Plan(work, effort, progress, cancel, enough);

    /// <summary>Plans the order of a work that was planned before it was edited. Only what the edits touched is sought again.</summary>
    /// <param name="work">The work as it is now.</param>
    /// <param name="earlier">The order of an earlier state of it; one planned with another effort or another way of working saves nothing.</param>
    /// <param name="effort">How long a better order is sought.</param>
    /// <param name="progress">Told how much is done, 0 to 1 and never less than before, now and then, on the calling thread.</param>
    /// <param name="cancel">Stops the planning.</param>
    /// <returns>The very order that <see cref="Plan(Work, Effort, IProgress{double}?, CancellationToken, CancellationToken)"/> gives.</returns>
    /// <exception cref="OperationCanceledException">The planning was stopped.</exception>
    public static WorkingOrder Plan(Work work, WorkingOrder earlier, Effort effort = Effort.Plate, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Planner.Replan(earlier, work, effort, progress, cancel);

    /// <summary>Makes the plate: cover, chart, key, materials and directions.</summary>
    /// <param name="order">The order it gives directions for, and with it the work it shows.</param>
    /// <param name="findings">What the proof found on that work; with an error in it the plate is stamped.</param>
    /// <param name="options">How it is made; the usual way when left out.</param>
    /// <returns>The plate, ready to be written: see <see cref="Plate.Writers.PlateFormat"/>.</returns>
    /// <exception cref="PlateTooLargeException">
    /// It has more cables than can be printed; the message says how many can. Its pages are laid out when they are first asked for, which throws the
    /// same when they are too many.
    /// </exception>
    /// <example>
    /// The same plate as a page and as plain words:
    /// <code>
    /// using Pleatwright;
    /// using Pleatwright.Plate;
    /// using Pleatwright.Plate.Writers;
    ///
    /// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/quay-yoke.piece.json")));
    /// var plate = Smocking.Plate(Smocking.Plan(work), Smocking.Prove(work), new PlateOptions { LargePrint = true });
    /// File.WriteAllBytes("quay-yoke.html", PlateFormat.Html.Write(plate));
    /// File.WriteAllBytes("quay-yoke.txt", PlateFormat.Text.Write(plate));
    /// Console.WriteLine($"{plate.Title}: {plate.Summary}");
    /// // prints:
    /// // Quay yoke: lighthouse, crab and kite: A flat panel in 7 threads, 518 cables
    /// </code>
    /// </example>
    public static PlateDocument Plate(WorkingOrder order, ImmutableArray<Finding> findings, PlateOptions? options = null) =>
        PlateMaker.Make(order.Work, order, findings, options ?? new PlateOptions());
}
