using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>A photograph of threads or cloth and the spot pressed in it; it stays for the next thread.</summary>
public sealed class Photo
{
    public Raster? Picture { get; private set; }

    public string Name { get; private set; } = "";

    public int X { get; private set; }

    public int Y { get; private set; }

    /// <summary>Radius of the patch, in pixels.</summary>
    public int Radius => Picture is null ? 0 : ColourSample.RadiusFor(Picture);

    /// <summary>The colour of the patch; null where there is none.</summary>
    public Colour? Colour => Picture is null ? null : ColourSample.At(Picture, X, Y, Radius);

    public void Lay(Raster picture, string name) => (Picture, Name, X, Y) = (picture, name, picture.Width / 2, picture.Height / 2);

    public void Press(int x, int y) => (X, Y) = (x, y);
}
