using System.Collections.Immutable;

namespace Pleatwright.Plate;

/// <summary>Marks without a page of their own: a picture or a chart, to be set on a sheet or shown on a screen.</summary>
/// <param name="View">What is seen of it, in millimetres.</param>
/// <param name="Marks">What is drawn, first marks beneath.</param>
public sealed record Drawing(Box View, ImmutableArray<Mark> Marks);
