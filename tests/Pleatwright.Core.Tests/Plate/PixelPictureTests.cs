using System.Collections.Immutable;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate;

/// <summary>A picture in pixels on a page: drawn while it is still to be painted elsewhere, painted as soon as it is there.</summary>
public class PixelPictureTests
{
    [Fact]
    public void What_is_drawn_stands_in_its_place_until_it_is_painted()
    {
        var pixels = new Later();
        var box = new Box(10, 10, 40, 30);
        var sheet = new Sheet("A page", 100, 80, [new PixelPicture(box, pixels, [new Shape(Outline.Rectangle(box), Colour.Parse("#b3202c"))])]);
        var drawn = SvgWriter.Write("A page", [sheet]);
        Assert.Contains("#b3202c", drawn);
        Assert.DoesNotContain("<image", drawn);
        pixels.Given = [0xff, 0xd8, 0xff, 0xd9];
        var painted = SvgWriter.Write("A page", [sheet]);
        Assert.DoesNotContain("#b3202c", painted);
        Assert.Contains("data:image/jpeg;base64,/9j/2Q==", painted);
    }

    private sealed class Later : PaintedPixels
    {
        public ImmutableArray<byte> Given { get; set; } = [];

        public override ImmutableArray<byte> Jpeg => Given;
    }
}
