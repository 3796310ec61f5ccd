namespace Pleatwright.Bench.Model.Table;

/// <summary>What on the cloth is taken hold of and pulled, while the hand takes hold of figures.</summary>
/// <param name="Across">Pleats across from the cloth's left edge.</param>
/// <param name="Line">Lines down from the upper edge of cable row 0.</param>
/// <param name="Scales">Whether it scales the figure; else it widens the gap between copies.</param>
/// <param name="Words">What stands beside it.</param>
public readonly record struct Handle(double Across, double Line, bool Scales, string Words);
