using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Model.Tests.Table;

/// <summary>A table with a piece on it, driven without a browser: pointers, wheel and keys as the page reports them.</summary>
internal sealed class AtTable
{
    public AtTable(Piece piece)
    {
        SynchronizationContext.SetSynchronizationContext(AtOnce.Instance);
        Desk = new Desk(Time);
        Needle = new Needle(Desk);
        Sheets = new Sheets(Needle);
        Desk.Said += Said.Add;
        Needle.Asked += Asked.Add;
        Desk.Open(piece);
        Cloth = new FlatCloth(Desk);
        Place = new Workplace(Desk, Needle) { Cloth = Cloth };
        Hand = new Handwork(Place, Time);
    }

    public FakeTimeProvider Time { get; } = new();

    public FlatCloth Cloth { get; }

    public Desk Desk { get; }

    public Needle Needle { get; }

    public Sheets Sheets { get; }

    public Workplace Place { get; }

    public Handwork Hand { get; }

    public List<string> Said { get; } = [];

    public List<Question> Asked { get; } = [];

    public Piece Piece => Desk.Piece;

    /// <summary>One event of a pointer.</summary>
    public void Point(PointerMove move, double x, double y, PointerKind kind = PointerKind.Mouse, int id = 1, PointerButtons buttons = PointerButtons.Main, Held held = Held.None, double size = 1) =>
        Hand.Hear("pointer", FormattableString.Invariant($"{id} {(int)kind} {(int)move} {(int)buttons} {(int)held} {x} {y} 0.5 {size}"));

    /// <summary>The middle of a brick in pixels.</summary>
    public (double X, double Y) Middle(int valley, int row) => Cloth.Seen.MiddleOf(Desk.Work, new Valley(valley), new CableRow(row));

    /// <summary>Presses and lifts a key.</summary>
    public void Key(string key)
    {
        Hand.Hear("keydown", key);
        Hand.Hear("keyup", key);
    }

    /// <summary>Draws from place to place in one stroke of the mouse.</summary>
    public void Stroke(params (double X, double Y)[] places)
    {
        Point(PointerMove.Down, places[0].X, places[0].Y);
        foreach (var (x, y) in places.Skip(1)) Point(PointerMove.Move, x, y);
        Point(PointerMove.Up, places[^1].X, places[^1].Y);
    }

    /// <summary>The cells that show a cable, from the top row down.</summary>
    public List<(int Valley, int Row)> Worked() => Worked(Desk.Work);

    /// <summary>Any of these.</summary>
    public static Gen<T> Pick<T>(params T[] choices) => Gen.Int[0, choices.Length - 1].Select(i => choices[i]);

    /// <summary>Any of these, each as often as its weight says.</summary>
    public static Gen<T> Mixed<T>(params (int Weight, Gen<T> Of)[] parts)
    {
        Gen<T>[] all = [.. parts.SelectMany(p => Enumerable.Repeat(p.Of, p.Weight))];
        return Gen.Int[0, all.Length - 1].SelectMany(i => all[i]);
    }

    public static List<(int Valley, int Row)> Worked(Work work) =>
        [.. from row in Enumerable.Range(0, work.CableRows) from valley in Enumerable.Range(1, work.Valleys) where work.IsWorked(new Valley(valley), new CableRow(row)) select (valley, row)];
}

/// <summary>Runs what is waited for as soon as it comes, on the thread it comes on, so that tests are the same every time.</summary>
internal sealed class AtOnce : SynchronizationContext
{
    public static AtOnce Instance { get; } = new();

    public override void Post(SendOrPostCallback d, object? state) => d(state);

    public override void Send(SendOrPostCallback d, object? state) => d(state);
}

/// <summary>A cloth in a view of 900 by 600 pixels, moved and brought nearer within limits as a painted one is.</summary>
internal sealed class FlatCloth : ICloth
{
    private readonly Desk desk;

    public FlatCloth(Desk desk)
    {
        this.desk = desk;
        Fit();
    }

    public Sight Seen { get; private set; }

    public Sight? Sight => Seen with { FromBack = Back };

    public Pane? Free { get; set; } = new Pane(0, 0, 900, 600);

    public bool Back { get; set; }

    public void Zoom(double factor) => ZoomAt(factor, 450, 300);

    public void ZoomAt(double factor, double x, double y)
    {
        var scale = Math.Clamp(Seen.Scale * factor, 0.5, 48);
        var f = scale / Seen.Scale;
        Seen = Seen with { Scale = scale, X = x + (Seen.X - x) * f, Y = y + (Seen.Y - y) * f };
        Keep();
    }

    public void Pan(double x, double y)
    {
        Seen = Seen with { X = Seen.X + x, Y = Seen.Y + y };
        Keep();
    }

    public void Fit()
    {
        var plan = desk.Work.Pleating;
        var widest = Enumerable.Range(0, plan.CableRows).Max(r => plan.PitchAt(r).Millimetres) * plan.Pleats;
        var tall = plan.CableRows * 2 * plan.Gauge.LineHeight.Millimetres;
        var scale = Math.Min(800 / widest, 500 / tall);
        Seen = new Sight(scale, 450, 300 - tall * scale / 2, false);
    }

    public void Reveal(Valley valley, CableRow row, bool inMiddle)
    {
        var (x, y) = Seen.MiddleOf(desk.Work, valley, row);
        if (inMiddle || x < 0 || x > 900 || y < 0 || y > 600) Pan(450 - x, 300 - y);
    }

    private void Keep() => Seen = Seen with { X = Math.Clamp(Seen.X, -5000, 5900), Y = Math.Clamp(Seen.Y, -5000, 5600) };
}

/// <summary>Pieces that every verb is tried on.</summary>
internal static class Pieces
{
    public static Piece Empty { get; } = New(new Panel(Length.FromInches(5)), 5);

    public static Piece Full { get; } = Examples.Read("harbour-morning");

    public static Piece Ball { get; } = Examples.Names.Select(Examples.Read).First(p => p.Cloth.Form is Ball);

    public static Piece Bishop { get; } = Examples.Names.Select(Examples.Read).First(p => p.Cloth.Form is Round);

    public static IReadOnlyList<(string Name, Piece Piece)> All => [("empty", Empty), ("full", Full), ("ball", Ball), ("bishop", Bishop)];

    public static Piece New(Form form, int gatheringRows) => new(
        "Tide", new ClothPlan(form, Gauge.Common, gatheringRows),
        [new(new('r'), "sail red", Colour.Parse("#b3202c"), 4), new(new('b'), "deep blue", Colour.Parse("#1f3a5f"), 4)], [], []);
}
