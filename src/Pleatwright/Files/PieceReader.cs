using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Reads piece files, format number 1.</summary>
public static class PieceReader
{
    /// <summary>The format number this program writes, and the newest it reads.</summary>
    public const int FormatNumber = 1;

    /// <summary>The largest file read, in bytes.</summary>
    public const int MostBytes = 64 * 1024 * 1024;

    /// <summary>What the name of every piece file ends with.</summary>
    internal const string Ending = ".piece.json";

    /// <summary>The most entries of a list.</summary>
    internal const int MostOfAKind = 5000;

    /// <summary>Reads a piece from text.</summary>
    /// <exception cref="PieceFormatException">The text is not a piece; says where and what would serve.</exception>
    public static Piece Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Reads a piece from UTF-8.</summary>
    /// <exception cref="PieceFormatException">The text is not a piece; says where and what would serve.</exception>
    public static Piece Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > MostBytes)
            throw new PieceFormatException(1, 1, $"the file is larger than {MostBytes / 1024 / 1024} MB, which no piece needs.");
        var (text, root) = JsonText.Read(utf8);
        return new Reading(text).Piece(root);
    }

    /// <summary>What makes a piece dear, told with its place in the file.</summary>
    /// <param name="utf8">The piece file, which can be read.</param>
    /// <param name="dear">What makes it dear.</param>
    /// <param name="remedy">What would serve, as a clause.</param>
    internal static PieceFormatException Located(ReadOnlySpan<byte> utf8, Dear dear, string remedy)
    {
        var (text, root) = JsonText.Read(utf8);
        var at = (root as LocatedObject)?.Members.FirstOrDefault(m => m.Name == dear.Key)?.Value;
        if (dear.Index is { } index && at is LocatedArray { Items: var items } && index < items.Count) at = items[index];
        return text.Error((at ?? root).Offset, $"{(dear.Index is null ? "" : "up to here ")}{dear.Words}; {remedy}.");
    }

    /// <summary>The title that a text gives itself, found without reading more of it; null where none is found. Whether it can be read is not asked.</summary>
    internal static string? TitleIn(ReadOnlySpan<byte> utf8)
    {
        var reader = new Utf8JsonReader(utf8.StartsWith(Encoding.UTF8.Preamble) ? utf8[3..] : utf8);
        try
        {
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject) return null;
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var found = reader.ValueTextEquals("title"u8);
                reader.Read();
                if (found) return reader.TokenType == JsonTokenType.String && reader.GetString() is { Length: > 0 and <= Chart.Piece.LongestTitle } title ? KeyReader.OneLine(title) : null;
                reader.Skip();
            }
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException) { } // the rest of it may be anything
        return null;
    }

    /// <summary>A piece being read; what a figure file holds of the same parts is read here, too.</summary>
    internal sealed class Reading(JsonText text)
    {
        private ImmutableArray<Floss> threads = [];
        private ImmutableArray<Figure> figures = [];
        private SearchValues<char>? letters; // that a figure may hold

        public Piece Piece(Located root)
        {
            var keys = new KeyReader(text, root, "a piece");
            keys.Format("pleatwright", FormatNumber, "piece");
            var title = keys.OptionalString("title", Chart.Piece.LongestTitle) ?? "Untitled";
            var credit = CreditReader.Read(text, keys);
            var cloth = Cloth(keys.Required("cloth"));
            Threads(keys.Optional("threads"));
            figures = Figures(keys.Optional("figures"));
            var placements = keys.Many("place", MostOfAKind, p => Placement(p, cloth));
            var bands = keys.Many("bands", MostOfAKind, b => BandReader.Band(text, b, cloth, threads));
            var accents = keys.Many("accents", MostOfAKind, a => BandReader.Accent(text, a, cloth, threads));
            var back = keys.OneOf("back", Backsmocking.Auto, ("auto", Backsmocking.Auto), ("gaps", Backsmocking.Gaps), ("none", Backsmocking.None), ("all", Backsmocking.All));
            var phase = keys.OneOf("phase", Phase.Even, ("even", Phase.Even), ("odd", Phase.Odd));
            var working = keys.Optional("working") is { } w ? Working(w) : new Working();
            var size = keys.OptionalString("size") ?? "";
            var sizes = SizeReader.Read(text, keys, cloth);
            var swatches = SwatchReader.Read(text, keys);
            keys.NothingElse();
            return new Piece(title, cloth, threads, figures, placements)
            {
                Credit = credit,
                SizeName = size,
                Bands = bands,
                Accents = accents,
                Back = back,
                Phase = phase,
                Working = working,
                Sizes = sizes,
                Swatches = swatches,
            };
        }

        private ClothPlan Cloth(Located value)
        {
            var keys = new KeyReader(text, value, "the cloth");
            var form = FormReader.Read(text, keys);
            var gauge = keys.Optional("gauge") is { } g ? GaugeOf(g) : Gauge.Common;
            var usual = new ClothPlan(form, gauge, keys.Whole("gatheringRows", ClothPlan.LeastGatheringRows, ClothPlan.MostGatheringRows));
            var cloth = usual with
            {
                SeamPleats = keys.Whole("seamPleats", 0, ClothPlan.MostSeamPleats, usual.SeamPleats),
                Colour = keys.OptionalColour("colour") ?? usual.Colour,
                Selvedges = keys.OptionalLength("selvedges", allowZero: true) ?? usual.Selvedges,
                Ravelling = keys.OptionalLength("ravelling", allowZero: true) ?? usual.Ravelling,
                Seam = keys.OptionalLength("seam", allowZero: true) ?? usual.Seam,
                Pleater = keys.Optional("pleater") is { } p ? PleaterOf(p) : null,
                FabricWidth = keys.OptionalLength("fabricWidth") ?? usual.FabricWidth,
                SoldBy = keys.OptionalLength("soldBy"),
                SeamAbove = keys.OptionalLength("seamAbove", allowZero: true) ?? usual.SeamAbove,
                LengthBelow = keys.OptionalLength("lengthBelow", allowZero: true) ?? usual.LengthBelow,
                SeamBelow = keys.OptionalLength("seamBelow", allowZero: true) ?? usual.SeamBelow,
            };
            if (keys.Optional("holdingRows") is { } holding)
            {
                if (holding is not LocatedArray { Items.Count: 2 } pair)
                    throw keys.Wrong(holding, "holdingRows", "a list of two whole numbers, above and below");
                cloth = cloth with
                {
                    HoldingRowsAbove = keys.AsWhole(pair.Items[0], "holdingRows", 0, ClothPlan.MostHoldingRows),
                    HoldingRowsBelow = keys.AsWhole(pair.Items[1], "holdingRows", 0, ClothPlan.MostHoldingRows),
                };
            }
            keys.NothingElse();
            return PleatingPlan.Fault(cloth) is { } fault
                ? throw text.Error((keys.Optional(fault.Key) ?? value).Offset, fault.Words + ".")
                : cloth;
        }

        private Pleater PleaterOf(Located value)
        {
            var keys = new KeyReader(text, value, "the pleater");
            var rows = keys.Whole("rows", Pleater.LeastRows, Pleater.MostRows);
            var pleater = new Pleater(rows, keys.Whole("overlap", 0, rows - 1, Pleater.UsualOverlap));
            keys.NothingElse();
            return pleater;
        }

        public Gauge GaugeOf(Located value)
        {
            var keys = new KeyReader(text, value, "the gauge");
            var common = Gauge.Common;
            var takeUp = keys.OptionalLength("takeUp") ?? common.TakeUp;
            var spacing = keys.OptionalLength("rowSpacing") ?? common.RowSpacing;
            var perSpace = keys.Whole("cableRowsPerSpace", 1, Gauge.MostCableRowsPerSpace, common.CableRowsPerSpace);
            var thickness = keys.OptionalLength("pleatThickness", allowZero: true) ?? Gauge.UsualPleatThickness;
            double? perInch = keys.Optional("pleatsPerInch") switch
            {
                null => null,
                LocatedNumber { Value: > 0 } n => n.Value,
                var other => throw keys.Wrong(other, "pleatsPerInch", "a number, more than 0"),
            };
            var pitch = keys.OptionalLength("pitch");
            keys.NothingElse();
            if (perInch is not null && pitch is not null)
                throw text.Error(value.Offset, "the gauge gives both “pleatsPerInch” and “pitch”; keep one.");
            try
            {
                var gauge = pitch is { } p
                    ? new Gauge(p, takeUp, spacing, perSpace)
                    : Gauge.FromPleatsPerInch(perInch ?? common.PleatsPerInch, takeUp, spacing, perSpace);
                return gauge with { PleatThickness = thickness };
            }
            catch (ArgumentOutOfRangeException e)
            {
                throw text.Error((keys.Optional("takeUp") ?? value).Offset, e.Why() + ".");
            }
        }

        public ImmutableArray<Floss> Threads(Located? value)
        {
            if (value is null) return threads = [];
            var keys = new KeyReader(text, value, "the threads");
            var found = ImmutableArray.CreateBuilder<Floss>();
            foreach (var member in keys.Members)
            {
                if (member.Name is not [var letter] || !char.IsAsciiLetter(letter))
                    throw text.Error(member.Offset, $"a thread's key is one letter, a to z or A to Z, but {JsonText.Quote(member.Name)} was found.");
                found.Add(Thread(new ThreadKey(letter), member.Value));
            }
            return threads = found.ToImmutable();
        }

        private Floss Thread(ThreadKey key, Located value)
        {
            var keys = new KeyReader(text, value, "a thread");
            var usual = new Floss(key, keys.OptionalString("name") ?? key.ToString(), keys.Colour("colour"),
                keys.Whole("strands", 1, Floss.MostStrands, Floss.DefaultStrands));
            var floss = usual with
            {
                TexPerStrand = keys.OptionalNumber("tex", Floss.LeastTex, Floss.MostTex) ?? usual.TexPerStrand,
                StrandsInSkein = keys.Whole("strandsInSkein", 1, Floss.MostStrandsInSkein, usual.StrandsInSkein),
                SkeinLength = keys.OptionalLength("skein") ?? usual.SkeinLength,
                Note = keys.OptionalString("note") ?? "",
            };
            keys.NothingElse();
            return floss;
        }

        private ImmutableArray<Figure> Figures(Located? value)
        {
            if (value is null) return [];
            var keys = new KeyReader(text, value, "the figures");
            if (keys.Members.Count > MostOfAKind) throw text.Error(value.Offset, $"“figures” holds more than {MostOfAKind} entries.");
            var figures = ImmutableArray.CreateBuilder<Figure>(keys.Members.Count);
            HashSet<string> names = [];
            foreach (var member in keys.Members)
            {
                figures.Add(FigureOf(KeyReader.OneLine(member.Name), member.Value));
                if (!names.Add(figures[^1].Name)) throw text.Error(member.Offset, $"a figure called {JsonText.Quote(member.Name)} stands here a second time, as names are read; give it another name.");
            }
            return figures.MoveToImmutable();
        }

        private Figure FigureOf(string name, Located value)
        {
            var keys = new KeyReader(text, value, "a figure");
            var figure = Stitches(name, keys) with { From = keys.Optional("from") is { } from ? Origin(from) : null };
            keys.NothingElse();
            return figure;
        }

        /// <summary>The stitches of a figure; the threads are read before.</summary>
        public Figure Stitches(string name, KeyReader keys)
        {
            var rowsAt = keys.Required("rows");
            var list = keys.List("rows");
            if (list.Count is 0 or > Figure.MostRows)
                throw text.Error(rowsAt.Offset, $"figure {JsonText.Quote(name)} has {list.Count} rows; a figure has 1 to {Figure.MostRows}.");
            var rows = ImmutableArray.CreateBuilder<string>(list.Count);
            foreach (var item in list)
            {
                var row = keys.AsLines(item, "rows"); // what is no letter is told of with its place
                CheckRow(name, row, item, rows.Count > 0 ? rows[0].Length : null, rows.Count);
                rows.Add(row);
            }
            var halves = keys.Many("half", MostOfAKind, h => Half(h, name, rows.Count));
            var square = keys.Flag("square", false);
            var letters = keys.OptionalLines("letters", Figure.MostLetters) ?? "";
            return new Figure(name, rows.MoveToImmutable()) { Square = square, Letters = letters, Halves = halves };
        }

        private FigureOrigin Origin(Located value)
        {
            var keys = new KeyReader(text, value, "where a figure came from");
            var origin = new FigureOrigin(keys.Mark("figure"), keys.Mark("state"), keys.Mark("as"), keys.Whole("baseRow", 0, Figure.MostRows - 1, 0));
            keys.NothingElse();
            return origin;
        }

        private void CheckRow(string figure, string row, Located at, int? width, int index)
        {
            if (row.Length is 0 or > Figure.MostValleys)
                throw text.Error(at.Offset, $"row {index} of figure {JsonText.Quote(figure)} is {row.Length} valleys wide; a row has 1 to {Figure.MostValleys}.");
            if (width is { } w && row.Length != w)
                throw text.Error(at.Offset, $"row {index} of figure {JsonText.Quote(figure)} is {row.Length} valleys wide, but its first row is {w}; all rows are equally long.");
            letters ??= SearchValues.Create([Figure.Bare, .. threads.Select(t => t.Key.Letter)]);
            var i = row.AsSpan().IndexOfAnyExcept(letters);
            if (i < 0) return;
            throw text.Error(text.OffsetIn(at, i), char.IsAsciiLetter(row[i])
                ? $"no thread has the letter “{row[i]}”; {PlaceReader.ThreadsThereAre(threads)}."
                : $"{JsonText.Quote(Rune.GetRuneAt(row, i).ToString())} is neither a thread's letter nor “.” for bare pleats.");
        }

        private HalfMark Half(Located value, string figure, int rows)
        {
            var keys = new KeyReader(text, value, $"a half stitch of figure {JsonText.Quote(figure)}");
            var row = keys.Whole("row", 0, rows - 1);
            keys.Required("end");
            var end = keys.OneOf("end", RunEnd.Left, ("left", RunEnd.Left), ("right", RunEnd.Right));
            keys.NothingElse();
            return new HalfMark(row, end);
        }

        private Placement Placement(Located value, ClothPlan cloth)
        {
            var keys = new KeyReader(text, value, "a placement");
            var nameAt = keys.Required("figure");
            var name = keys.AsString(nameAt, "figure");
            var figure = figures.FirstOrDefault(f => f.Name == name) ?? throw text.Error(nameAt.Offset,
                $"no figure is called {JsonText.Quote(name)}; there {(figures.Length == 1 ? "is" : "are")} {(figures.Length == 0 ? "none" : string.Join(", ", figures.Take(12).Select(f => JsonText.Quote(f.Name))))}.");
            var placement = new Placement(name, PlaceReader.Centre(text, keys, cloth),
                new GatheringRow(keys.Whole("gatheringRow", 1, ClothPlan.MostGatheringRows)),
                keys.Whole("figureRow", 0, figure.Height - 1, 0))
            {
                Mirror = keys.Flag("mirror", false),
                FlipPhase = keys.Flag("flip", false),
                Repeat = PlaceReader.Repeat(text, keys),
            };
            keys.NothingElse();
            return placement;
        }

        private Working Working(Located value)
        {
            var keys = new KeyReader(text, value, "the working");
            var usual = new Working();
            var working = new Working
            {
                Way = keys.OneOf("way", usual.Way, [.. Enum.GetValues<WayOfWorking>().Select(w => (WayWords.Of(w), w))]),
                WorkingLength = keys.OptionalLength("workingLength") ?? usual.WorkingLength,
                Longer = keys.OptionalLength("longer", allowZero: true) ?? usual.Longer,
                LeastRest = keys.OptionalLength("leastRest") ?? usual.LeastRest,
                Tails = keys.OptionalLength("tails", allowZero: true) ?? usual.Tails,
                ThreadFactor = keys.OptionalNumber("threadFactor", Chart.Working.LeastThreadFactor, Chart.Working.MostThreadFactor) ?? usual.ThreadFactor,
                CarryPleats = keys.Whole("carryPleats", 0, Chart.Working.MostCarryPleats, usual.CarryPleats),
                Hand = keys.OneOf("hand", usual.Hand, ("right", Hand.Right), ("left", Hand.Left)),
                First = keys.OneOf("first", usual.First, ("up", FirstWay.Up), ("down", FirstWay.Down), ("either", FirstWay.Either)),
                MayTurn = keys.Flag("mayTurn", usual.MayTurn),
                ParkedThreads = keys.Whole("parkedThreads", 0, Chart.Working.MostParkedThreads, usual.ParkedThreads),
                SplitRuns = keys.Flag("splitRuns", usual.SplitRuns),
                Places = keys.Many("places", MostOfAKind, FixedPlace),
                Figures = keys.Many("figures", MostOfAKind, FigurePlace),
                BaseRow = keys.Optional("baseRow") is { } b ? new CableRow(keys.AsWhole(b, "baseRow", 0, PleatingPlan.MostCableRows)) : null,
            };
            keys.NothingElse();
            if (working.WorkingLength <= working.Tails)
                throw text.Error(value.Offset, $"a needleful of {working.WorkingLength} leaves no thread after tails of {working.Tails}.");
            return working;
        }

        private FigurePlace FigurePlace(Located value)
        {
            var keys = new KeyReader(text, value, "a figure named by a place in it");
            var place = new FigurePlace(
                new CableRow(keys.Whole("row", 0, PleatingPlan.MostCableRows)),
                new Valley(keys.Whole("valley", 1, PleatingPlan.MostPleats)));
            keys.NothingElse();
            return place;
        }

        private FixedPlace FixedPlace(Located value)
        {
            var keys = new KeyReader(text, value, "a fixed place");
            var place = new FixedPlace(
                new CableRow(keys.Whole("row", 0, PleatingPlan.MostCableRows)),
                new Valley(keys.Whole("valley", 1, PleatingPlan.MostPleats)),
                keys.Whole("place", 1, int.MaxValue));
            keys.NothingElse();
            return place;
        }
    }
}
