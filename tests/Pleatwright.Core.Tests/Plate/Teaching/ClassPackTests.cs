using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Teaching;
using Pleatwright.Plate.Writers;
using Pleatwright.Thread;
using UglyToad.PdfPig;

namespace Pleatwright.Tests.Plate.Teaching;

public partial class ClassPackTests
{
    public static TheoryData<string> Examples => ["harbour-morning", "quay-yoke", "quay-bishop", "net-float", "flawed-kite", "harbour-wall"];

    private static ClassPack Pack(string example, ClassOptions options, PlateOptions? plate = null) => ClassPack.Make(Plates.OfExample(example, plate), options);

    private static List<string> Words(IEnumerable<Mark> marks) => [.. marks.SelectMany(m => m switch
    {
        Lettering lettering => [lettering.Text],
        Inset inset => Words(inset.Marks),
        _ => (IEnumerable<string>)[],
    })];

    private static string Text(IEnumerable<Sheet> sheets) => string.Join('\n', sheets.Select(s => $"— {s.Name} —\n{string.Join('\n', Words(s.Marks))}\n"));

    [Theory, MemberData(nameof(Examples))]
    public void Every_kit_has_one_label_and_one_line_in_the_register(string example)
    {
        var pack = Pack(example, new ClassOptions(23) { SpareKits = 2 });
        var labels = pack.LabelSheets.SelectMany(s => Words(s.Marks)).ToList();
        for (var kit = 1; kit <= 25; kit++) Assert.Single(labels, $"Kit {kit} of 25");
        Assert.Equal(2, labels.Count(w => w == "Spare kit"));
        foreach (var floss in pack.Cutting.Flosses)
            Assert.True(labels.Count(w => w.EndsWith(floss.LengthsInKit == 1 ? " length" : " lengths", StringComparison.Ordinal)) >= 25);
        var register = pack.TeacherSheets.Where(s => s.Name == "Register").SelectMany(s => Words(s.Marks)).ToList();
        for (var kit = 1; kit <= 25; kit++) Assert.Single(register, kit.ToString(CultureInfo.InvariantCulture));
    }

    [Theory, MemberData(nameof(Examples))]
    public void The_lengths_on_all_labels_add_up_to_the_teachers_total(string example)
    {
        var pack = Pack(example, new ClassOptions(7) { SpareKits = 1, ExtraLengths = 1 });
        var onLabels = pack.LabelSheets.SelectMany(s => Words(s.Marks)).Select(w => LengthsOnly().Match(w)).Where(m => m.Success).Sum(m => int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture));
        var teacher = string.Join(" ", pack.TeacherSheets.Where(s => s.Name == "Teacher’s sheet").SelectMany(s => Words(s.Marks)));
        var inAll = LengthsInAll().Matches(teacher).Sum(m => int.Parse(m.Groups[1].Value, NumberStyles.AllowThousands, CultureInfo.InvariantCulture));
        Assert.Equal(pack.Cutting.Flosses.Sum(f => f.Lengths), onLabels);
        Assert.Equal(onLabels, inAll);
        var needlefuls = pack.Cutting.Flosses.Sum(f => f.NeedlefulsInKit);
        Assert.Equal(pack.Plate.Order.Needlefuls - pack.Plate.Order.Starts + pack.Plate.Order.CutLengths, needlefuls);
    }

    [GeneratedRegex("^(\\d+) lengths?$")]
    private static partial Regex LengthsOnly();

    [GeneratedRegex("([\\d,]+) in all[;:]")]
    private static partial Regex LengthsInAll();

    [Theory, MemberData(nameof(Examples))]
    public void Nothing_reaches_beyond_the_paper_and_labels_keep_within_their_cutting_lines(string example)
    {
        foreach (var plate in (PlateOptions[])[new(), new() { Paper = Paper.Letter }, new() { LargePrint = true }])
            foreach (var sheet in Pack(example, new ClassOptions(9) { Sessions = 3 }, plate).Sheets)
                foreach (var mark in sheet.Marks.OfType<Lettering>())
                {
                    var width = Typeface.Width(mark.Text, mark.Style);
                    var left = mark.Anchor switch { Anchor.Start => mark.At.X, Anchor.Middle => mark.At.X - width / 2, _ => mark.At.X - width };
                    Assert.True(left > 10 && left + width < sheet.Width - 10 && mark.At.Y < sheet.Height - 8 && mark.At.Y > 10, $"{sheet.Name}: {mark.Text} at {mark.At}");
                }
    }

    [Theory, MemberData(nameof(Examples))]
    public void A_row_counted_at_a_checkpoint_has_the_cables_of_the_work(string example)
    {
        var plate = Plates.OfExample(example);
        var points = Checkpoint.Of(plate);
        Assert.Contains($"{plate.Work.Pleating.PleatsToGather} pleats", points[0].Count);
        if (plate.Order.Steps.IsEmpty) return;
        var perSpace = plate.Work.Pleating.Gauge.CableRowsPerSpace;
        var counted = points.Where(p => p.Where.Contains(": gathering row", StringComparison.Ordinal)).Sum(p => int.Parse(p.Count.Split(' ')[0], NumberStyles.AllowThousands, CultureInfo.InvariantCulture));
        var onRows = 0;
        foreach (var run in plate.Work.Runs) if (run.Row.Index % perSpace == 0) onRows += run.Cables;
        Assert.Equal(onRows, counted);
    }

    [Fact]
    public void Sessions_share_all_the_work_in_order() => Gen.Select(Gen.Int[1, 100].Array[1, 40], Gen.Int[1, 50]).Sample((stitches, sessions) =>
    {
        var step = new WorkItem("", [], new Direction(DirectionKind.Step, "", null));
        ImmutableArray<ClassItem> items = [.. stitches.Select((n, i) => new ClassItem($"{i}", step, n))];
        var shared = Session.Share(items, sessions);
        Assert.Equal(Math.Min(sessions, items.Length), shared.Length);
        var next = 0;
        foreach (var session in shared)
        {
            Assert.Equal(items[next].Name, session.First);
            var last = int.Parse(session.Last, CultureInfo.InvariantCulture);
            Assert.InRange(last, next, items.Length - 1);
            Assert.Equal(stitches[next..(last + 1)].Sum(), session.Stitches);
            next = last + 1;
        }
        Assert.Equal(items.Length, next);
    });

    [Fact]
    public void The_handout_is_drawn_for_both_hands_in_mirror_image()
    {
        var sheets = Pack("first-pennant", new ClassOptions(2)).HandoutSheets;
        Assert.Equal(["Handout, right hand", "Handout, right hand", "Handout, left hand", "Handout, left hand"], sheets.Select(s => s.Name));
        // the pictures mirror: what is inset in one sheet lies across the picture in the other
        Assert.Contains("from right to left", string.Join(" ", Words(sheets[0].Marks)));
        Assert.Contains("from left to right", string.Join(" ", Words(sheets[2].Marks)));
        for (var page = 0; page < 2; page++)
        {
            var (right, left) = (Spots(sheets[page]), Spots(sheets[page + 2]));
            Assert.Equal(right.Count, left.Count);
            for (var i = 0; i < right.Count; i++) Assert.Equal(right[i], left[i], 6);
        }

        static List<double> Spots(Sheet sheet) => [.. sheet.Marks.OfType<Inset>().SelectMany(i => i.Marks.OfType<Shape>().SelectMany(s => s.Outline.Spots).Select(s => s.Y)).Order()];
    }

    // Wherever a thread is drawn on the handout it comes out of the cloth, and goes in, where the moves of a row have it; the needle goes through its pleat there, too.
    [Theory, InlineData(Level.Up), InlineData(Level.Down)]
    public void What_the_handout_draws_lies_on_the_path_of_the_moves(Level level)
    {
        foreach (var hand in Enum.GetValues<Hand>())
            foreach (var rows in (ImmutableArray<string>[])[[".aaa..."], [".aaabb."], ["aaaaaa.", "aaaaaa."]])
                foreach (var passage in HandPicture.Worked(level, rows))
                    foreach (var move in passage.Moves)
                    {
                        var work = Plates.OfExample("first-pennant").Work;
                        HandPicture New() => passage.Turned ? Bare().AsTurned() : move.Lies == ClothSide.Wrong ? Bare().FromBehind() : Bare();
                        HandPicture Bare() => new(work, work.Piece.Threads[0], hand, level, 80, 1, Look.Booklet);
                        // Places on the cloth of the row, as its chart has them: pleats across, and lines from the middle of its first row.
                        var pitch = 80.0 / HandPicture.Pleats;
                        double X(Prick p) => ((hand == Hand.Right) == (passage.Turned || move.Lies == ClothSide.Wrong) ? HandPicture.Pleats - p.Across : p.Across) * pitch;
                        var bare = Bare().Cut(1, 1);
                        List<Outline> Drawn(Func<HandPicture, HandPicture> draw) => [.. draw(New()).Cut(1, 1).Marks.Skip(bare.Marks.Length).OfType<Shape>().Where(s => s.Fill is null).Select(s => s.Outline)];
                        foreach (var line in Drawn(p => p.Lies(move)))
                            Assert.Equal((X(move.From), X(move.In)), (line.Spots[0].X, line.Spots[^1].X), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) < 1e-6);
                        Assert.All(Drawn(p => p.End(move.Out)).Select(l => l.Spots[0].X), x => Assert.Equal(X(move.Out), x, 6));
                        Assert.All(Drawn(p => p.Through(move)).Select(l => l.Spots[0].X), x => Assert.Equal(X(move.In), x, 6));
                        var high = (Drawn(p => p.Lies(move))[0].Spots[^1].Y - Drawn(p => p.Lies(move))[0].Spots[0].Y) / (Drawn(p => p.Through(move))[0].Spots[0].Y - Drawn(p => p.Through(move))[0].Spots[^1].Y) * 1.6;
                        Assert.Equal((move.In.Height - move.From.Height) / Pleatwright.Cloth.Gauge.Common.LineHeight * (passage.Turned ? -1 : 1), high, 6);
                        if (move.Kind is not (MoveKind.Begin or MoveKind.Cable) || move.Lies == ClothSide.Wrong) continue;
                        // The needle lies across its pleat: its eye on the side where it goes in, its point where it comes out.
                        var body = New().Needle(move).Cut(1, 1).Marks.Skip(bare.Marks.Length).OfType<Shape>().First(s => s.Fill is not null).Outline.Spots;
                        Assert.InRange(X(move.In), body.Min(s => s.X), body.Max(s => s.X));
                        Assert.InRange(X(move.Out), body.Min(s => s.X), body.Max(s => s.X));
                        Assert.True(Math.Abs(body[0].X - X(move.Out)) < Math.Abs(body[0].X - X(move.In)));
                    }
    }

    private static List<Lettering> Letters(IEnumerable<Mark> marks) =>
        [.. marks.SelectMany(m => m switch { Lettering l => [l], Inset i => Letters(i.Marks), _ => (IEnumerable<Lettering>)[] })];

    [Theory, MemberData(nameof(Examples))]
    public void Nothing_in_the_pack_is_smaller_than_8_points_and_the_handout_is_one_sheet_a_hand(string example)
    {
        foreach (var plate in (PlateOptions[])[new(), new() { Paper = Paper.Letter }, new() { LargePrint = true }, new() { Levels = LevelWords.LeftRight }])
        {
            var pack = Pack(example, new ClassOptions(5) { Sessions = 3 }, plate);
            foreach (var sheet in pack.Sheets)
                Assert.All(Letters(sheet.Marks), l => Assert.True(l.Style.Points >= 8, $"{sheet.Name}: {l.Text}, {l.Style.Points} points"));
            if (!plate.LargePrint) Assert.Equal(4, pack.HandoutSheets.Length);
        }
    }

    [Theory, MemberData(nameof(Examples))]
    public void The_handout_shows_every_hold_a_beginner_needs_in_the_order_it_is_needed(string example)
    {
        foreach (var hand in new[] { "right", "left" })
        {
            var pages = Pack(example, new ClassOptions(5)).HandoutSheets.Where(s => s.Name == $"Handout, {hand} hand").ToList();
            var headings = pages.SelectMany(p => p.Marks.OfType<Lettering>()).Select(l => FigureHeading().Match(l.Text)).Where(m => m.Success).Select(m => m.Groups[1].Value.Split(',')[0]);
            Assert.Equal(["Secure the start", "Begin", "The first cable", "The next", "The half stitch", "Change the colour", "Turn the work", "Enter the next row", "The mirror row", "Tie off", "Backsmocking", "Keep the count"], headings);
            Assert.Equal(12, pages.Sum(p => p.Marks.OfType<Inset>().Count())); // each with its picture
        }
    }

    [GeneratedRegex("^\\d+  (.+)$")]
    private static partial Regex FigureHeading();

    // What the handout says of the next row: over the pleats just worked its first cable is held as the last one was, a pleat further in or out the other way.
    [Theory, MemberData(nameof(Examples))]
    public void The_rule_for_entering_the_next_row_holds_in_every_order(string example)
    {
        var order = Plates.OfExample(example).Order;
        var seen = 0;
        for (var i = 1; i < order.Steps.Length; i++)
        {
            var (last, next) = (order.Steps[i - 1], order.Steps[i]);
            if (last.Turned == next.Turned || Math.Abs(last.Row.Index - next.Row.Index) != 1) continue;
            Assert.Equal((next.From.Number - last.To.Number) % 2 == 0, next.HeldBegin == last.HeldEnd);
            seen++;
        }
        Assert.True(seen > 0 || order.Turns == 0);
    }

    [Theory]
    [InlineData("first-pennant", 1)]
    [InlineData("quay-yoke", 3)]
    [InlineData("harbour-morning", 2)]
    public void A_kit_has_as_many_needles_as_hang_and_the_one_in_hand(string example, int needles)
    {
        var pack = Pack(example, new ClassOptions(6) { SpareKits = 1 });
        // counted anew from the printed words: a thread hangs from where it is left to where it is taken up
        var (most, hanging) = (1, new HashSet<int>());
        foreach (var direction in Directions.Write(pack.Plate.Order, LevelWords.UpDown).Where(d => d.Step is not null && d.Kind == DirectionKind.Step))
        {
            if (TakenUp().Match(direction.Text) is { Success: true } taken) Assert.True(hanging.Remove(int.Parse(taken.Groups[1].Value, CultureInfo.InvariantCulture)));
            most = Math.Max(most, hanging.Count + 1);
            if (direction.Text.Contains("Leave the thread hanging", StringComparison.Ordinal)) hanging.Add(direction.Step!.Number);
        }
        Assert.Equal((needles, needles), (most, pack.Needles));
        var words = $"{(needles == 1 ? "1 needle" : $"{needles} needles")}, counted out";
        Assert.Equal(7, pack.LabelSheets.SelectMany(s => Words(s.Marks)).Count(w => w == words));
        var teacher = string.Join(" ", pack.TeacherSheets.SelectMany(s => Words(s.Marks)));
        Assert.Contains($"{7 * needles} embroidery needles", teacher);
        Assert.Contains($"{needles} each", teacher);
    }

    [GeneratedRegex("Take up the thread . left hanging after step (\\d+)")]
    private static partial Regex TakenUp();

    [Theory]
    [InlineData("quay-yoke")]
    [InlineData("first-pennant")]
    public void Backsmocking_is_work_before_the_class_and_no_session_counts_it(string example)
    {
        var pack = Pack(example, new ClassOptions(6) { Sessions = 3 });
        var text = string.Join(" ", pack.TeacherSheets.SelectMany(s => Words(s.Marks)));
        var (order, sessions) = (pack.Plate.Order, text[text.IndexOf("The work in 3 sessions", StringComparison.Ordinal)..text.IndexOf("What goes wrong", StringComparison.Ordinal)]);
        Assert.DoesNotContain("the back", sessions.Replace("the thread waits at the back until next time", ""), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(order.Steps.Sum(s => s.Cables + s.HalfStitches), StitchesIn().Matches(sessions).Sum(m => int.Parse(m.Groups[1].Value, NumberStyles.AllowThousands, CultureInfo.InvariantCulture)));
        var before = text[text.IndexOf("Before the class", StringComparison.Ordinal)..text.IndexOf("Stop and count", StringComparison.Ordinal)];
        Assert.Contains("Backsmock every cloth", before);
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"{order.Backsmock.Cables:N0} cables in all"), before);
        Assert.Contains("before the class: ", string.Join(" ", pack.LabelSheets.SelectMany(s => Words(s.Marks))));
    }

    [GeneratedRegex("([\\d,]+) stitch(?:es)?;")]
    private static partial Regex StitchesIn();

    [Theory]
    [InlineData("first-pennant")]
    [InlineData("quay-yoke")]
    public void An_independent_reader_finds_the_pages_and_their_words(string example)
    {
        var pack = Pack(example, new ClassOptions(12) { Sessions = 2 });
        using var read = PdfDocument.Open(PdfWriter.Write(pack.Title, pack.Sheets));
        Assert.Equal(pack.Sheets.Length, read.NumberOfPages);
        var text = string.Join(" ", read.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        foreach (var words in (string[])["Teacher’s sheet", "Stop and count", "What goes wrong", "Register", "Kit 12 of 12", "Stacked cables, right hand", "Stacked cables, left hand", "count them back in", "Follow your local rules"])
            Assert.Contains(words, text);
        foreach (var thread in pack.Plate.Threads.Where(t => t.IsUsed)) Assert.Contains(thread.Name, text);
    }

    [Fact]
    public void The_same_pack_gives_the_same_bytes_in_every_format()
    {
        foreach (var format in ClassFormat.All)
            Assert.Equal(format.Write(Pack("first-pennant", new ClassOptions(3))), format.Write(Pack("first-pennant", new ClassOptions(3))));
    }

    [Fact]
    public void The_archive_holds_every_part()
    {
        var bytes = ClassFormat.OfFile("x.ZIP")!.Write(Pack("first-pennant", new ClassOptions(3)));
        using var zip = new ZipArchive(new MemoryStream(bytes));
        Assert.Equal(["teacher.pdf", "kit-labels.pdf", "handout.pdf", "plate.pdf", "student-page.html"], zip.Entries.Select(e => e.FullName));
        Assert.All(zip.Entries, e => Assert.True(e.Length > 1000));
    }

    [Fact]
    public void The_pack_in_words() => Snapshot.Check("Plate", "pennant-class.snap.txt", Text(Pack("first-pennant", new ClassOptions(2) { SpareKits = 1, ExtraLengths = 1, Sessions = 2 }).Sheets));

    [Fact]
    public void A_skein_too_short_and_a_number_out_of_range_are_refused()
    {
        var work = SomeWorks.Of(true, "rrrr");
        var shortened = Work.Lay(work.Piece with { Threads = [work.Piece.Threads[0] with { SkeinLength = Length.FromInches(10) }, work.Piece.Threads[1]] });
        Assert.Contains("gives no needleful", Assert.Throws<ArgumentException>(() => ClassPack.Make(Plates.Of(shortened), new ClassOptions(2))).Message);
        foreach (var options in (ClassOptions[])[new(0), new(201), new(3) { SpareKits = 51 }, new(3) { ExtraLengths = -1 }, new(3) { Sessions = 0 }])
            Assert.Throws<ArgumentException>(() => ClassPack.Make(Plates.Of(work), options));
    }

    [Fact]
    public void Two_threads_of_one_floss_share_its_lengths_on_the_label()
    {
        var work = SomeWorks.Of(true, "rrrr", "bbbb");
        ImmutableArray<Floss> threads = [work.Piece.Threads[0] with { Strands = 4 }, work.Piece.Threads[1] with { Name = work.Piece.Threads[0].Name, Colour = work.Piece.Threads[0].Colour, Strands = 2 }];
        var pack = ClassPack.Make(Plates.Of(Work.Lay(work.Piece with { Threads = threads, Back = Backsmocking.None })), new ClassOptions(4));
        var floss = Assert.Single(pack.Cutting.Flosses);
        Assert.Equal(1, floss.LengthsInKit);
        Assert.Contains("r: 1 needleful of 4 strands; b: 1 needleful of 2 strands", string.Join(" ", Words(pack.LabelSheets[0].Marks)));
    }

    [Fact]
    public void A_piece_without_a_stitch_still_makes_a_pack()
    {
        var work = SomeWorks.Of(true, "rrrr");
        var bare = Work.Lay(work.Piece with { Placements = [], Back = Backsmocking.None });
        foreach (var piece in (Piece[])[bare.Piece, bare.Piece with { Threads = [], Figures = [] }])
            foreach (var format in ClassFormat.All) Assert.NotEmpty(format.Write(ClassPack.Make(Plates.Of(Work.Lay(piece)), new ClassOptions(2) { Sessions = 2 })));
    }

    [Theory, MemberData(nameof(HostileNameTests.Names), MemberType = typeof(HostileNameTests))]
    public void Hostile_names_are_only_read(string name)
    {
        var work = SomeWorks.Of(true, ".rr.", "bbbb");
        var plate = Plates.Of(Work.Lay(work.Piece with { Title = name, Threads = [work.Piece.Threads[0] with { Name = name, Note = name }, work.Piece.Threads[1]] }));
        var pack = ClassPack.Make(plate, new ClassOptions(2));
        using var read = PdfDocument.Open(PdfWriter.Write(pack.Title, pack.Sheets));
        Assert.Equal(pack.Title, read.Information.Title);
        foreach (var sheet in pack.Sheets)
            Assert.All(Words(sheet.Marks), w => Assert.DoesNotContain(w, c => char.IsControl(c) || c is '\u202E' or '\u2066'));
    }
}
