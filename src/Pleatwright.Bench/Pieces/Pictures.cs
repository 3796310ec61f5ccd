using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Pieces;

/// <summary>Stitched pictures of pieces, painted one after another on a cloth kept out of sight and held by edition.</summary>
internal sealed class Pictures : IDisposable
{
    private const int MostHeld = 300;
    private const double Shape = 1.6; // how wide a picture is, to how high

    private static readonly Dictionary<Edition, string> Held = [];

    private readonly SemaphoreSlim one = new(1);
    private readonly CancellationTokenSource gone = new();
    private Painter? painter;

    /// <summary>Paints from now on in the element of this id.</summary>
    public void PaintIn(string elementId)
    {
        painter = Painter.Open(elementId, 0);
        painter.BeLit(picture: true);
        painter.SetLook(Look.Stitched);
    }

    /// <summary>The picture of an edition, as a data address; null when there is none to make.</summary>
    /// <param name="edition">Which text it is.</param>
    /// <param name="load">Fetches that text.</param>
    public Task<string?> OfAsync(Edition edition, Func<CancellationToken, Task<byte[]>> load) => OfAsync(edition, async () =>
    {
        var text = await load(gone.Token);
        return Outlay.OfFile(text.Length) is { } heavy ? throw new ArgumentException(heavy.Words) : Smocking.Read(text);
    });

    private async Task<string?> OfAsync(Edition edition, Func<Task<Piece>> load)
    {
        if (Held.TryGetValue(edition, out var held)) return held;
        try
        {
            await one.WaitAsync(gone.Token);
            try
            {
                if (painter is null) return null;
                var piece = await load();
                if (Outlay.Of(piece) is not null) return null; // no picture is worth that the shelf stands still
                var work = Smocking.Lay(piece);
                await Task.Delay(1, gone.Token); // the page breathes between two pictures
                painter.Show(work);
                await painter.LaidAsync();
                if (painter is null) return null;
                painter.Fit();
                if (Held.Count >= MostHeld) Held.Clear();
                return Held[edition] = painter.Picture();
            }
            finally
            {
                one.Release();
            }
        }
        catch (Exception e) when (e is PieceFormatException or ArgumentException or ShelfException or OperationCanceledException)
        {
            return null; // the words beside it say what is wrong
        }
    }

    /// <summary>The picture of a figure, stitched on bare cloth.</summary>
    public Task<string?> OfAsync(KeptFigure kept) => OfAsync(new Edition($"figure {kept.State}"), () => Task.FromResult(OnBareCloth(kept)));

    /// <summary>The picture of an edition of a figure's text.</summary>
    public Task<string?> OfFigureAsync(Edition edition, Func<CancellationToken, Task<byte[]>> load) => OfAsync(edition, async () => OnBareCloth(FigureReader.Read(await load(gone.Token))));

    private static Piece OnBareCloth(KeptFigure kept) => BareCloth.Pictured(kept, Shape);

    public void Dispose()
    {
        gone.Cancel();
        painter?.Dispose();
        painter = null;
    }
}
