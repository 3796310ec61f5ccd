using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Order.Telling;

/// <summary>
/// Tells an order as facts, in the order worked: backsmocking first, then the bands, the runs, and last the accents.
/// </summary>
internal sealed class Teller
{
    private readonly WorkingOrder order;
    private readonly Work work;
    private readonly int perSpace;
    private readonly Middle middle;
    private readonly bool once, pinned;
    private readonly HashSet<int> based = []; // parts with a base row of their own: the others stand on a border, or hang from one
    private readonly ImmutableArray<Told>.Builder told = ImmutableArray.CreateBuilder<Told>();

    private Teller(WorkingOrder order, bool once)
    {
        (this.order, work, this.once) = (order, order.Work, once);
        perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        middle = Middle.Of(work);
        pinned = work.Piece.Working.Places.Length > 0;
        for (var r = 0; r < work.Runs.Length; r++)
            if (order.Outward.WayOf(r) == 0) based.Add(order.Parts.Of(r));
    }

    /// <summary>All there is to tell; nothing when nothing is worked.</summary>
    /// <param name="order">The order.</param>
    /// <param name="once">Whether what is worked again and again on copies of a figure is told once, counted from the figure's own centre.</param>
    public static ImmutableArray<Told> Of(WorkingOrder order, bool once)
    {
        if (order.Steps.IsEmpty && order.Bands.Steps.IsEmpty && order.Bands.Accents.IsEmpty && order.Backsmock.Rows.IsEmpty) return [];
        var teller = new Teller(order, once);
        teller.told.Add(new Opening(order.Work.Pleating.Pleats, order.Work.Pleating.CentreValley, teller.perSpace,
            order.Turns > 0 || order.Backsmock.Turns > 0 || order.Bands.Steps.Any(s => s.Pass.Turned), order.Steps.Any(s => s.HalfStitches > 0)));
        teller.Back();
        teller.Bands();
        teller.Runs();
        teller.Accents();
        return teller.told.ToImmutable();
    }

    private void Back()
    {
        var back = order.Backsmock;
        if (back.Rows.IsEmpty) return;
        told.Add(new BackOpening(work.Piece.Back == Backsmocking.Gaps));
        if (once && back.IsRightAcross && back.Rows.Length > 2)
        {
            var first = back.Rows[0];
            told.Add(new BackRows([.. back.Rows.Select(r => r.Row.Number).Order()], middle.To(first.Begin, !first.Turned), middle.To(first.End, !first.Turned), first.Cables,
                back.Rows.Any(r => r.Turned), back.Needlefuls) { PerSpace = perSpace });
        }
        else
            foreach (var row in back.Rows)
                told.Add(new BackLine(row, middle.To(row.Begin, !row.Turned), middle.To(row.End, !row.Turned), row.Carried > Length.Zero ? perSpace : 0)); // the row before lies a space above
        told.Add(new RightSideUp());
    }

    private void Bands()
    {
        LaidBand? band = null;
        var turned = false;
        foreach (var (i, step) in order.Bands.Steps.Index())
        {
            if (step.Band != band)
            {
                band = step.Band;
                told.Add(new BandOpening(band, band.Stitch.Backward ? work.Piece.Working.Hand == Hand.Left : null)
                {
                    Sides = band.Stitch.SidesOf(band.Band),
                    Slopes = band.Passes.Any(p => p.Stitches.Any(s => s is { IsLevel: false, Kind: StitchKind.Over or StitchKind.Bar })),
                });
            }
            var pass = step.Pass;
            var (highest, lowest, slope) = band.HeightsOf(pass);
            var down = slope == 0 ? 0 : (int)Math.Round((step.Begin.From.Depth - highest) / (lowest - highest) * slope);
            told.Add(new BandLine(i + 1, step, middle.To(step.Begin.From.Pleat, pass.Turned), middle.To(step.End.To.Pleat, pass.Turned),
                Height.Of(highest, perSpace), Height.Of(lowest, perSpace), slope, pass.Turned ? slope - down : down,
                Pattern.Of(pass.Stitches.AsSpan().Slice(step.First, step.Count), pass.Turned))
            {
                WasTurned = turned,
                CarriedRows = Math.Abs(step.CarriedSpaces) * perSpace,
            });
            if (!step.Continues && RowsUnder(pass) is { IsEmpty: false } rows) told.Add(new BandCheck(rows));
            turned = pass.Turned;
        }
        if (turned) told.Add(new TurnedBack());
    }

    // The gathering rows that a pass's bites lie on.
    private ImmutableArray<int> RowsUnder(Pass pass)
    {
        var rows = new SortedSet<int>();
        foreach (var stitch in pass.Stitches)
            if (Math.Abs(stitch.From.Depth - Math.Round(stitch.From.Depth)) < Stitch.Hair && stitch.IsLevel) rows.Add((int)Math.Round(stitch.From.Depth) + 1);
        rows.RemoveWhere(r => r < 1 || r > work.Piece.Cloth.GatheringRows);
        return [.. rows];
    }

    private void Runs()
    {
        if (order.Steps.IsEmpty) return;
        told.Add(new RunsOpening());
        foreach (var pin in order.UnkeptPlaces) told.Add(new UnkeptPlace(pin, HeightOf(pin.Row, 0, pin.Row)));
        var repeats = once ? Copies.Of(order) : [];
        var (repeat, cables, needlefuls) = (0, 0, 0);
        var rows = RowsOfParts();
        var squeezed = Squeezing.Of(order);
        (int Part, int Way, int Generation)? section = null;
        for (var i = 0; i < order.Steps.Length; i++)
        {
            var repeated = repeat < repeats.Length && i + 1 >= repeats[repeat].First ? repeats[repeat] : null;
            var centre = repeated is null ? middle : Centre(repeated.First, repeated.Length);
            if (repeated is not null && i + 1 == repeated.First) Alike(repeated, !centre.IsValley);
            var step = order.Steps[i];
            var here = (order.Parts.Of(step.RunIndex), order.Outward.WayOf(step.RunIndex), order.Outward.GenerationOf(step.RunIndex));
            if (section != here && (section?.Part != here.Item1 || !pinned)) told.Add(Opening(here, centre, i, repeated is null && repeat < repeats.Length ? repeats[repeat].First - 1 : order.Steps.Length));
            section = here;
            cables += step.Cables;
            if (step.Threads) needlefuls++;
            told.Add(Line(step, i, centre, repeated is not null, cables, needlefuls));
            if (squeezed[i]) told.Add(new Squeezed(step));
            var row = rows[(here.Item1, step.Row.Index)];
            row.Together += step.Cables;
            if (i + 1 == order.Steps.Length || order.Steps[i + 1].Row != step.Row || order.Parts.Of(order.Steps[i + 1].RunIndex) != here.Item1)
            {
                // only of what was worked in one go: else the count would be of a part, and read as the whole
                if (row.Runs > 1 && row.Together == row.Cables) told.Add(new RowCount(row.Cables, row.Runs, step));
                row.Together = 0;
                if (step.Row.Index % perSpace == 0) told.Add(new RowCheck(step.Row.Index / perSpace + 1, here.Item2 == 0, step));
            }
            if (repeated is null || step.Number != repeated.Last) continue;
            cables += repeated.Again.Sum(c => order.Steps.Slice(c.First - 1, repeated.Length).Sum(s => s.Cables));
            needlefuls += repeated.Again.Sum(c => order.Steps.Slice(c.First - 1, repeated.Length).Count(s => s.Threads));
            i = repeated.End - 1;
            repeat++;
            section = null;
        }
        told.Add(new Closing(cables, order.Steps.Sum(s => s.HalfStitches), needlefuls, order.Turns));
    }

    // Where each of them lies comes first: there the hand begins.
    private void Alike(Repeated repeated, bool onPleat)
    {
        told.Add(new AlikeOpening(repeated.First, repeated.Last, repeated.Again.Length + 1, onPleat));
        var level = repeated.Again.All(c => c.Lower == 0);
        var allNew = Starts(order.Steps.Slice(repeated.First - 1, repeated.Length * (repeated.Again.Length + 1))).IsEmpty;
        foreach (var copy in repeated.Again.Prepend(new Copy(repeated.First, 0, false, 0)))
        {
            var steps = order.Steps.Slice(copy.First - 1, repeated.Length);
            var its = Centre(copy.First, repeated.Length);
            var valley = new Valley(its.Twice / 2);
            told.Add(new AlikeLine(copy.First, copy.First + repeated.Length - 1, its.IsValley ? (middle.To(valley.LeftPleat, false), middle.To(valley.RightPleat, false)) : null,
                its.IsValley ? null : middle.To(new Pleat(its.Twice / 2), false), copy.Swapped, steps.Sum(s => s.Cables), steps.Count(s => s.Threads))
            {
                Step = steps[0],
                Lower = copy.Lower,
                PerSpace = perSpace,
                Level = level,
                Starts = Starts(steps),
                AllNew = allNew,
            });
        }
    }

    private ImmutableArray<ToldStart> Starts(ImmutableArray<Step> steps) =>
        [.. from step in steps where step.Starts == StartKind.New && (step.RestFrom > 0 || LongerOf(step) > Length.Zero) select new ToldStart(step.Number, step.RestFrom, step.RestFrom > 0 ? Length.Zero : LongerOf(step))];

    private Length LongerOf(Step step) => order.LongerBy(step) > Length.Zero ? work.Piece.Working.Longer : Length.Zero;

    private sealed class RowOfPart
    {
        public int Cables, Runs, Together;
    }

    private Dictionary<(int Part, int Row), RowOfPart> RowsOfParts()
    {
        var rows = new Dictionary<(int, int), RowOfPart>();
        for (var r = 0; r < work.Runs.Length; r++)
        {
            var key = (order.Parts.Of(r), work.Runs[r].Row.Index);
            if (!rows.TryGetValue(key, out var row)) rows[key] = row = new();
            row.Cables += work.Runs[r].Cables;
            row.Runs++;
        }
        return rows;
    }

    private Middle Centre(int first, int length)
    {
        var steps = order.Steps.AsSpan().Slice(first - 1, length);
        int from = int.MaxValue, to = 0;
        foreach (var s in steps) (from, to) = (Math.Min(from, Math.Min(s.From.Number, s.To.Number)), Math.Max(to, Math.Max(s.From.Number, s.To.Number) + 1));
        return Middle.Of(from, to);
    }

    private PartOpening Opening((int Part, int Way, int Generation) here, Middle centre, int first, int end)
    {
        var part = order.Parts.InOrder[here.Part];
        var row = work.Areas.All[part.Area].Base;
        var (from, to) = (part.From, part.To);
        if (once || pinned) // over lines that go on until another part is worked; sentences have several headings for one part
        {
            (from, to) = (order.Steps[first].From, order.Steps[first].To);
            for (var i = first; i < end && order.Parts.Of(order.Steps[i].RunIndex) == here.Part; i++)
                foreach (var valley in (ReadOnlySpan<Valley>)[order.Steps[i].From, order.Steps[i].To])
                    (from, to) = (new(Math.Min(from.Number, valley.Number)), new(Math.Max(to.Number, valley.Number)));
            if (from.Number > to.Number) (from, to) = (to, from);
        }
        return new(centre.To(from.LeftPleat, false), centre.To(to.RightPleat, false), here.Way, here.Way != 0 && here.Generation > 0, HeightOf(row, 0, row), order.Parts.InOrder.Length == 1)
        {
            Part = here.Part,
            OnBorder = !based.Contains(here.Part),
            Pinned = pinned,
        };
    }

    // Rows are counted from the gathering row last met on the way out, so they are named in the order they are worked; before one is
    // met, from the next to come; the base row from the nearest.
    private Height HeightOf(CableRow row, int way, CableRow from) => Height.Of(row, perSpace, way switch
    {
        < 0 => (row.Index / perSpace + 1) * perSpace <= from.Index,
        0 => row.Index % perSpace * 2 > perSpace,
        _ => row.Index / perSpace * perSpace < from.Index,
    });

    private RunLine Line(Step step, int index, Middle centre, bool alike, int cables, int needlefuls)
    {
        var rightward = order.TravelsRight(step);
        Pleat first = rightward ? step.From.LeftPleat : step.From.RightPleat, last = rightward ? step.To.RightPleat : step.To.LeftPleat;
        var comes = step.Starts == StartKind.New ? alike ? Coming.NewOrRest : step.RestFrom > 0 ? Coming.Rest : Coming.New
            : order.Steps[index - 1].Needleful == step.Needleful ? Coming.Same : Coming.TakenUp;
        var before = comes switch { Coming.Rest => step.RestFrom, Coming.TakenUp => order.LastStepOf(step), _ => 0 };
        var hung = comes == Coming.TakenUp ? order.Steps[before - 1] : null;
        return new(step, HeightOf(step.Row, order.Outward.WayOf(step.RunIndex), work.Areas.All[work.Areas.AreaOf(step.RunIndex)].Base),
            centre.To(first, step.Turned), centre.To(last, step.Turned))
        {
            Thread = work.Piece.Thread(step.Thread)!,
            Comes = comes,
            Before = before,
            Hangs = hung is null ? default : centre.To(order.TravelsRight(hung) ? hung.To.RightPleat : hung.To.LeftPleat, step.Turned),
            Longer = alike ? Length.Zero : LongerOf(step),
            Goes = step.GoesOn ? Going.UsedUp : step.TieOff ? Going.TiedOff : step.Parks ? Going.Hanging : Going.Kept,
            WasTurned = index > 0 && order.Steps[index - 1].Turned,
            Rightward = rightward != step.Turned,
            Pleats = alike ? null : (first.Number, last.Number),
            Cables = cables,
            Needlefuls = needlefuls,
        };
    }

    private void Accents()
    {
        var accents = order.Bands.Accents;
        if (accents.IsEmpty) return;
        told.Add(new AccentOpening([.. accents.Select(a => a.Laid.Accent).Distinct()]));
        if (order.TurnsBackForAccents) told.Add(new TurnedBack());
        var number = 0;
        foreach (var marks in accents.GroupBy(a => a.Laid.Index))
        {
            var laid = marks.First().Laid;
            told.Add(new AccentLine(++number, [.. marks.Select(m => m.Laid)], work.Piece.Thread(laid.Mark.Thread)!, Height.Of(laid.Depth, perSpace),
                [.. marks.Select(m => middle.To(m.Laid.Valley, false))], marks.Count(m => m.Threads)));
        }
    }
}
