using System.Runtime.InteropServices;
using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Model.Painting;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;

namespace Pleatwright.Bench;

// The stitched look as a graphics card draws it: pleats and strands are handed over once, then what an edit touched of them.
public sealed partial class Painter
{
    private const int AtOnce = 6;           // blocks laid while the page waits
    private const int Slice = 12 * 1024;    // bytes of strands laid between two breaths of the page
    private const int ManyStitches = 1500;  // of a picture seen from afar: their strands cannot be told apart

    private readonly SortedSet<int> far = [], near = []; // blocks to be laid
    private StitchedNumbers? numbers;
    private Work? work, taken;
    private Look look;
    private bool lit, fromAfar;
    private Task laying = Task.CompletedTask;

    /// <summary>Lets the graphics card draw the stitched look, where the browser has one.</summary>
    /// <param name="picture">It is only for a picture, seen whole.</param>
    public void BeLit(bool picture = false)
    {
        lit = JsLight(handle, picture);
        fromAfar = picture;
    }

    /// <summary>Comes when all of the work is laid for the stitched look.</summary>
    public Task LaidAsync() => laying;

    /// <summary>Comes with the next frame that the page shows.</summary>
    public Task NextFrameAsync() => JsNextFrame();

    private void LightWork()
    {
        if (!lit || look != Look.Stitched || work is null || ReferenceEquals(work, taken)) return;
        taken = work;
        numbers ??= new StitchedNumbers();
        var change = numbers.Take(work);
        if (change.Anew)
        {
            far.Clear();
            near.Clear();
            JsLightBegins(handle, numbers.Constants, [work.Piece.Cloth.Colour.ToString(), .. work.Piece.Threads.Select(t => t.Colour.ToString())]);
        }
        if (change.Cloth is { } lines) JsLightNodes(handle, numbers.Columns, MemoryMarshal.AsBytes(numbers.Nodes.ToArray().AsSpan()), lines.From, lines.To);
        foreach (var block in change.Blocks)
        {
            if (numbers.Has(block))
            {
                far.Add(block);
                if (!fromAfar || work.Cables < ManyStitches) near.Add(block);
            }
            else
            {
                far.Remove(block);
                near.Remove(block);
                JsLightBlockGone(handle, block);
            }
        }
        for (var i = 0; i < AtOnce && LaySome(1); i++) { }
        if (!laying.IsCompleted) return;
        if (far.Count + near.Count == 0) JsLightIsWhole(handle);
        else laying = LayAsync();
    }

    private async Task LayAsync()
    {
        do await NextFrameAsync(); // what was laid is shown before more is
        while (!disposed && LaySome(Slice));
        if (!disposed) JsLightIsWhole(handle);
    }

    // All of it from afar, then strand by strand; says whether something was left to do.
    private bool LaySome(int bytes)
    {
        var any = false;
        for (var done = 0; done < bytes; any = true)
        {
            var whole = far.Count > 0;
            var from = whole ? far : near;
            if (from.Count == 0) break;
            var block = from.Min;
            from.Remove(block);
            var strands = numbers!.Lay(block, whole).ToArray();
            JsLightBlock(handle, block, whole, strands);
            done += strands.Length;
        }
        return any;
    }

    private bool disposed;

    [JSImport("light", "painter")]
    private static partial bool JsLight(int handle, bool picture);

    [JSImport("lightBegins", "painter")]
    private static partial void JsLightBegins(int handle, string constants, string[] colours);

    [JSImport("lightNodes", "painter")]
    private static partial void JsLightNodes(int handle, int columns, [JSMarshalAs<JSType.MemoryView>] Span<byte> nodes, double top, double bottom);

    [JSImport("lightBlock", "painter")]
    private static partial void JsLightBlock(int handle, int block, bool whole, [JSMarshalAs<JSType.MemoryView>] Span<byte> strands);

    [JSImport("lightBlockGone", "painter")]
    private static partial void JsLightBlockGone(int handle, int block);

    [JSImport("nextFrame", "painter")]
    private static partial Task JsNextFrame();

    [JSImport("lightIsWhole", "painter")]
    private static partial void JsLightIsWhole(int handle);
}
