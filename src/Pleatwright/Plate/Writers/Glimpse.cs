using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Writers;

/// <summary>A part of the chart as a picture by itself, to see what an edit would do before it is made.</summary>
internal static class Glimpse
{
    /// <summary>The most pleats shown.</summary>
    public const int MostPleats = 160;

    private const double Width = 170; // millimetres

    /// <summary>A part of the chart as SVG, its rows as they are asked for and one row more at both ends.</summary>
    /// <param name="work">The work.</param>
    /// <param name="window">The part; what is beyond the cloth, and beyond the most pleats shown, is left out.</param>
    /// <param name="id">An id for the picture that nothing else on its page has.</param>
    /// <param name="title">Its title.</param>
    /// <param name="description">What it shows, for those who do not see it.</param>
    public static string Draw(Work work, ChartWindow window, string id, string title, string description)
    {
        var first = Math.Clamp(window.FirstPleat, 1, work.Pleating.Pleats);
        var last = Math.Clamp(window.LastPleat, first, Math.Min(work.Pleating.Pleats, first + MostPleats - 1));
        var geometry = ChartGeometry.Scaled(work, Width / (work.Pleating.Gauge.Pitch.Millimetres * Math.Max(40, last - first + 1)));
        var part = new ChartWindow(first, last, window.FirstRow - 1, window.LastRow + 1);
        var box = geometry.BoxOf(part);
        var marks = ImmutableArray.Create<Mark>(new Inset(ChartField.Draw(geometry, part, Look.Booklet), default, box));
        return SvgWriter.Element(id, title, description, box, marks);
    }

    /// <summary>The rows and pleats that a band reaches over.</summary>
    public static ChartWindow Of(Work work, Band band)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var laid = work.Bands.FirstOrDefault(b => b.Band == band);
        var stitch = Chart.Stitches.BandStitch.Named(band.Stitch)!;
        var fit = Chart.Stitches.BandFit.Of(stitch, band, work.Pleating);
        var top = laid is { Passes.IsEmpty: false } ? laid.Highest : Chart.Stitches.LaidBand.TopOf(band, perSpace);
        var bottom = laid is { Passes.IsEmpty: false } ? laid.Lowest : top + (double)(band.Rows - 1) / perSpace;
        return new ChartWindow(fit.First.Number, Math.Max(fit.First.Number, fit.Last.Number), (int)Math.Floor(top * perSpace) - 1, (int)Math.Ceiling(bottom * perSpace) + 1);
    }

    /// <summary>A few rows and pleats about all copies of an accent of the piece.</summary>
    /// <param name="work">The work.</param>
    /// <param name="accent">Its place among the piece's accents, from 0.</param>
    public static ChartWindow OfAccent(Work work, int accent)
    {
        var copies = work.Accents.Where(a => a.Index == accent).ToArray();
        var row = (int)Math.Round(copies[0].Depth * work.Pleating.Gauge.CableRowsPerSpace);
        var reach = Math.Max(8, copies[0].Size / 2 + 4);
        return new ChartWindow(copies[0].Valley.Number - 19, copies[^1].Valley.Number + 20, row - reach, row + reach);
    }
}
