using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Pleatwright.Tests.Plate.Preparation;

/// <summary>Reads a PDF's own path data back, in millimetres from the top left of the page.</summary>
internal static class PdfMeasure
{
    private const double MillimetresPerPoint = 25.4 / 72;

    internal readonly record struct At(double X, double Y)
    {
        public double From(At other) => Math.Sqrt((X - other.X) * (X - other.X) + (Y - other.Y) * (Y - other.Y));
    }

    internal readonly record struct Straight(At From, At To)
    {
        public double Length => From.From(To);
    }

    /// <summary>A figure with curves, each as its four spots.</summary>
    internal sealed record Curved(IReadOnlyList<At[]> Curves, bool Closed)
    {
        public At Centre => new(
            (Curves.SelectMany(c => c).Min(p => p.X) + Curves.SelectMany(c => c).Max(p => p.X)) / 2,
            (Curves.SelectMany(c => c).Min(p => p.Y) + Curves.SelectMany(c => c).Max(p => p.Y)) / 2);

        /// <summary>Spots along it, many to each curve.</summary>
        public IEnumerable<At> Along(int each = 64) => Curves.SelectMany(c => Enumerable.Range(0, each + 1).Select(i => On(c, i / (double)each)));

        /// <summary>Its length, by chords.</summary>
        public double Length => Along(400).Zip(Along(400).Skip(1)).Sum(p => p.First.From(p.Second));

        private static At On(At[] c, double t)
        {
            double u = 1 - t, a = u * u * u, b = 3 * u * u * t, d = 3 * u * t * t, e = t * t * t;
            return new At(a * c[0].X + b * c[1].X + d * c[2].X + e * c[3].X, a * c[0].Y + b * c[1].Y + d * c[2].Y + e * c[3].Y);
        }
    }

    public static List<(List<Straight> Lines, List<Curved> Curves)> Read(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return [.. document.GetPages().Select(Read)];
    }

    private static (List<Straight>, List<Curved>) Read(Page page)
    {
        List<Straight> lines = [];
        List<Curved> curves = [];
        foreach (var path in page.Paths.Where(p => !p.IsClipping))
            foreach (var figure in path)
            {
                var found = figure.Commands.OfType<PdfSubpath.CubicBezierCurve>()
                    .Select(c => new[] { Mm(c.StartPoint), Mm(c.FirstControlPoint), Mm(c.SecondControlPoint), Mm(c.EndPoint) }).ToList();
                if (found.Count > 0) curves.Add(new Curved(found, figure.Commands.OfType<PdfSubpath.Close>().Any()));
                else lines.AddRange(figure.Commands.OfType<PdfSubpath.Line>().Select(l => new Straight(Mm(l.From), Mm(l.To))));
            }
        return (lines, curves);

        At Mm(PdfPoint p) => new(p.X * MillimetresPerPoint, (double)page.Height * MillimetresPerPoint - p.Y * MillimetresPerPoint);
    }
}
