using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Model.Painting;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench;

/// <summary>A painted cloth in the page: hands the work over to the painting module, packed.</summary>
public sealed partial class Painter : ICloth, IDisposable
{
    private readonly int handle;
    private byte[] cells = [];
    private (Cloth.ClothPlan Cloth, System.Collections.Immutable.ImmutableArray<Thread.Floss> Threads)? shown;

    private (System.Collections.Immutable.ImmutableArray<Band> Bands, System.Collections.Immutable.ImmutableArray<Chart.Accents.AccentMark> Accents,
        Cloth.ClothPlan Cloth, System.Collections.Immutable.ImmutableArray<Floss> Threads, Hand Hand)? shapes;

    private Painter(int handle) => this.handle = handle;

    /// <summary>Loads the modules; once, before anything else.</summary>
    public static async Task LoadAsync()
    {
        await JSHost.ImportAsync("painter", "../painter.js");
        await JSHost.ImportAsync("hand", "../hand.js");
        await JSHost.ImportAsync("over", "../over.js");
    }

    /// <summary>Opens the element of this id, which holds two canvases.</summary>
    /// <param name="elementId">The element's id.</param>
    /// <param name="margin">Room kept round the cloth for row numbers, in pixels; 0 for a bare picture.</param>
    public static Painter Open(string elementId, int margin) => new(JsOpen(elementId, margin));

    /// <summary>Shows a work; only what changed since the last one is painted again.</summary>
    public void Show(Work work)
    {
        var piece = work.Piece;
        if (shown is not { } s || !ReferenceEquals(s.Cloth, piece.Cloth) || s.Threads != piece.Threads)
        {
            if (shown is not { } t || !ReferenceEquals(t.Cloth, piece.Cloth)) SetCloth(work);
            SetThreads(work);
            cells = [];
            shown = (piece.Cloth, piece.Threads);
        }
        if (shapes is not { } t2 || t2.Bands != piece.Bands || t2.Accents != piece.Accents || !ReferenceEquals(t2.Cloth, piece.Cloth) || t2.Threads != piece.Threads || t2.Hand != piece.Working.Hand)
        {
            JsSetShapes(handle, Shapes.OfBands(work), Shapes.OfAccents(work));
            shapes = (piece.Bands, piece.Accents, piece.Cloth, piece.Threads, piece.Working.Hand);
            cells = [];
        }
        var length = Bricks.PackedLength(work);
        if (cells.Length != length) cells = new byte[length];
        Bricks.Pack(work, cells);
        JsSetCells(handle, cells);
        this.work = work;
        LightWork();
    }

    private void SetCloth(Work work)
    {
        var plan = work.Pleating;
        var pitch = new double[plan.CableRows];
        for (var y = 0; y < pitch.Length; y++) pitch[y] = plan.PitchAt(y).Millimetres;
        JsSetCloth(handle, plan.Pleats, plan.CableRows, plan.Gauge.CableRowsPerSpace, plan.Cloth.GatheringRows,
            plan.Cloth.HoldingRowsAbove, plan.Cloth.HoldingRowsBelow, plan.Gauge.LineHeight.Millimetres, plan.Cloth.Colour.ToString(), pitch);
    }

    private void SetThreads(Work work)
    {
        var threads = work.Piece.Threads;
        JsSetThreads(handle, string.Join(' ', threads.Select(t => t.Colour)), string.Concat(threads.Select(t => t.Key)),
            threads.Select(t => t.Strands).ToArray(), threads.Select(t => Coverage.OfLine(t, work.Pleating.Gauge.LineHeight)).ToArray());
    }

    /// <summary>Which cells are worked already, a byte a cell; empty to show them all alike.</summary>
    public void SetDone(byte[] done) => JsSetDone(handle, done);

    /// <summary>Bands and accents shown otherwise than the work has them, until the piece changes; see <see cref="Shapes"/>.</summary>
    public void SetShapes(double[] under, double[] over)
    {
        JsSetShapes(handle, under, over);
        JsSetCells(handle, cells);
    }

    public void SetLook(Look look)
    {
        this.look = look;
        LightWork();
        JsSetLook(handle, (int)look);
    }

    public void SetCursor(Valley valley, CableRow row) => JsSetCursor(handle, valley.Number, row.Index);

    /// <summary>The valley that is drawn about, and the cell opposite the hand on its row; null for none.</summary>
    public void SetMirror(Valley? axis, Valley? image) => JsSetMirror(handle, axis?.Number ?? 0, image?.Number ?? 0);

    /// <summary>What is taken hold of and pulled, each with its words.</summary>
    public void SetHandles(IReadOnlyList<Handle> handles) =>
        JsSetHandles(handle, [.. handles.SelectMany(h => new[] { h.Across, h.Line, h.Scales ? 1 : 0 })], [.. handles.Select(h => h.Words)], Gesture.GripBeside);

    public void SetArea(Area? area)
    {
        if (area is { } a) JsSetArea(handle, a.From.Number, a.To.Number, a.Top.Index, a.Bottom.Index);
        else JsSetArea(handle, 0, 0, 0, 0);
    }

    /// <summary>Rings: top row, bottom row, from, to, severity each.</summary>
    public void SetRings(int[] rings, int chosen) => JsSetRings(handle, rings, chosen);

    /// <summary>What lies on the wrong side, shown there alone: legs as in <see cref="Route"/>.</summary>
    public void SetBack(double[] legs) => JsSetBack(handle, legs);

    /// <summary>The route, shown over everything: legs as in <see cref="Route"/>.</summary>
    public void SetRoute(double[] legs) => JsSetRoute(handle, legs);

    public void Zoom(double factor) => JsZoom(handle, factor);

    public void Fit() => JsFit(handle);

    /// <summary>Nearer, if need be, and moved so that a cell lies in the middle of what is uncovered.</summary>
    /// <param name="valley">The cell's valley.</param>
    /// <param name="row">The cell's row.</param>
    /// <param name="underFinger">The least height of a line in pixels, where a finger is the pointer.</param>
    /// <param name="underMouse">The least height of a line in pixels, where a mouse or a pen is.</param>
    public void OpenAt(Valley valley, CableRow row, double underFinger, double underMouse) => JsOpenAt(handle, valley.Number, row.Index, underFinger, underMouse);

    /// <summary>Paints the map of this cloth into an element, and lets it move the view.</summary>
    public void ShowMap(string id, Model.Tabletop.ClothMap map) => JsShowMap(handle, id, map.Across, map.Down);

    public void Reveal(Valley valley, CableRow row, bool inMiddle) => JsReveal(handle, valley.Number, row.Index, inMiddle);

    /// <summary>What is painted now, as an image in a data address.</summary>
    public string Picture() => JsPicture(handle);

    /// <inheritdoc/>
    public Sight? Sight => JsSight(handle) is [var scale, var x, var y, var back] ? new Sight(scale, x, y, back != 0) : null;

    /// <inheritdoc/>
    public Pane? Free => JsFree(handle) is [var left, var top, var right, var bottom] ? new Pane(left, top, right, bottom) : null;

    /// <summary>The loupe; null puts it away.</summary>
    public void SetLoupe(Loupe? loupe)
    {
        if (loupe is { } l) JsSetLoupe(handle, l.X, l.Y, l.Left, l.Top, Loupe.Width, Loupe.Height, Loupe.Nearer, l.Words);
        else JsSetLoupe(handle, 0, 0, 0, 0, 0, 0, 0, "");
    }

    /// <inheritdoc/>
    public void Pan(double x, double y) => JsPan(handle, x, y);

    /// <inheritdoc/>
    public void ZoomAt(double factor, double x, double y) => JsZoomAt(handle, factor, x, y);

    /// <summary>Listens to pointers, wheel and keys over this cloth; what they mean is decided by who hears them.</summary>
    public void Listen(Func<string, string, bool> hear) => JsTake(handle, hear);

    /// <inheritdoc/>
    public void Dispose()
    {
        disposed = true;
        JsRelease(handle);
        JsClose(handle);
    }

    /// <summary>Paints everything again, after the colours of the page have changed.</summary>
    [JSImport("refreshAll", "painter")]
    public static partial void RefreshAll();

    [JSImport("open", "painter")]
    private static partial int JsOpen(string id, int margin);

    [JSImport("close", "painter")]
    private static partial void JsClose(int handle);

    [JSImport("setCloth", "painter")]
    private static partial void JsSetCloth(int handle, int pleats, int rows, int perSpace, int gatheringRows, int above, int below,
        double lineMm, string colour, [JSMarshalAs<JSType.MemoryView>] Span<double> pitch);

    [JSImport("setThreads", "painter")]
    private static partial void JsSetThreads(int handle, string colours, string letters,
        [JSMarshalAs<JSType.MemoryView>] Span<int> strands, [JSMarshalAs<JSType.MemoryView>] Span<double> covers);

    [JSImport("setCells", "painter")]
    private static partial void JsSetCells(int handle, [JSMarshalAs<JSType.MemoryView>] Span<byte> cells);

    [JSImport("setDone", "painter")]
    private static partial void JsSetDone(int handle, [JSMarshalAs<JSType.MemoryView>] Span<byte> done);

    [JSImport("setLook", "painter")]
    private static partial void JsSetLook(int handle, int look);

    [JSImport("setCursor", "painter")]
    private static partial void JsSetCursor(int handle, int valley, int row);

    [JSImport("setMirror", "painter")]
    private static partial void JsSetMirror(int handle, int axis, int image);

    [JSImport("setHandles", "painter")]
    private static partial void JsSetHandles(int handle, double[] places, string[] words, double beside);

    [JSImport("setLoupe", "painter")]
    private static partial void JsSetLoupe(int handle, double x, double y, double left, double top, double width, double height, double nearer, string words);

    [JSImport("free", "painter")]
    private static partial double[] JsFree(int handle);

    [JSImport("setArea", "painter")]
    private static partial void JsSetArea(int handle, int from, int to, int top, int bottom);

    [JSImport("setRings", "painter")]
    private static partial void JsSetRings(int handle, [JSMarshalAs<JSType.MemoryView>] Span<int> rings, int chosen);

    [JSImport("setRoute", "painter")]
    private static partial void JsSetRoute(int handle, [JSMarshalAs<JSType.MemoryView>] Span<double> legs);

    [JSImport("setBack", "painter")]
    private static partial void JsSetBack(int handle, [JSMarshalAs<JSType.MemoryView>] Span<double> legs);

    [JSImport("setShapes", "painter")]
    private static partial void JsSetShapes(int handle, [JSMarshalAs<JSType.MemoryView>] Span<double> under, [JSMarshalAs<JSType.MemoryView>] Span<double> over);

    [JSImport("picture", "painter")]
    private static partial string JsPicture(int handle);

    [JSImport("zoom", "painter")]
    private static partial void JsZoom(int handle, double factor);

    [JSImport("fit", "painter")]
    private static partial void JsFit(int handle);

    [JSImport("reveal", "painter")]
    private static partial void JsReveal(int handle, int valley, int row, bool inMiddle);

    [JSImport("openAt", "painter")]
    private static partial void JsOpenAt(int handle, int valley, int row, double underFinger, double underMouse);

    [JSImport("showMap", "painter")]
    private static partial void JsShowMap(int handle, string id, double across, double down);

    [JSImport("take", "hand")]
    private static partial void JsTake(int handle, [JSMarshalAs<JSType.Function<JSType.String, JSType.String, JSType.Boolean>>] Func<string, string, bool> hear);

    [JSImport("sight", "hand")]
    private static partial double[] JsSight(int handle);

    [JSImport("pan", "hand")]
    private static partial void JsPan(int handle, double x, double y);

    [JSImport("zoomAt", "hand")]
    private static partial void JsZoomAt(int handle, double factor, double x, double y);

    [JSImport("release", "hand")]
    private static partial void JsRelease(int handle);
}
