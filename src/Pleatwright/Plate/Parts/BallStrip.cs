using Pleatwright.Cloth;

namespace Pleatwright.Plate.Parts;

/// <summary>A strip of a ball from pole to pole: a ball cannot be laid flat in one piece.</summary>
internal static class BallStrip
{
    /// <summary>Strips that go round the ball.</summary>
    public const int Around = 8;

    private const int Steps = 180;

    /// <summary>How wide what is so wide at the equator is at a distance, in millimetres, from the upper pole.</summary>
    public static double Narrowed(GlobeSurface ball, double atEquator, double along) =>
        atEquator * Math.Sin(Math.PI * Math.Clamp(along / ball.Meridian.Millimetres, 0, 1));

    /// <summary>A strip's edges.</summary>
    /// <param name="ball">The ball.</param>
    /// <param name="middle">How far across its middle lies.</param>
    /// <param name="width">Its width at the equator in millimetres.</param>
    public static Outline Edge(GlobeSurface ball, double middle, double width)
    {
        var meridian = ball.Meridian.Millimetres;
        var outline = new OutlineBuilder().MoveTo(middle, 0);
        for (var i = 1; i <= Steps; i++) To(i, 0.5);
        for (var i = Steps - 1; i > 0; i--) To(i, -0.5);
        return outline.Close().Build();

        void To(int step, double side)
        {
            var along = meridian * step / Steps;
            outline.LineTo(middle + side * Narrowed(ball, width, along), along);
        }
    }
}
