using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table;

/// <summary>How the cloth is looked at.</summary>
public enum Look
{
    /// <summary>Bricks with letters.</summary>
    Chart,

    /// <summary>Pleats and thread with light and shade.</summary>
    Stitched,

    /// <summary>The wrong side: carries, knots, backsmocking.</summary>
    Back,
}

/// <summary>What a pointer does on the cloth.</summary>
public enum HandMove { Down, Move, Up, Cancel }

/// <summary>Keys and buttons held meanwhile.</summary>
[Flags]
public enum HandHeld { None = 0, Shift = 16, Ctrl = 32, Alt = 64, OtherButton = 128 }

/// <summary>The cloth as it is shown: what a verb may ask of it.</summary>
public interface ICloth
{
    /// <summary>Nearer or further, about the middle of the view.</summary>
    void Zoom(double factor);

    /// <summary>The whole cloth in sight.</summary>
    void Fit();

    /// <summary>Brings a cell into sight; in the middle when asked for.</summary>
    void Reveal(Valley valley, CableRow row, bool inMiddle);
}
