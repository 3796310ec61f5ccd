using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Drafts;

/// <summary>A bare number in a field of lengths means the unit that the field showed last.</summary>
public class LengthTextTests
{
    private static LengthText Showing(Length length, bool optional = false)
    {
        var field = new LengthText(optional);
        field.Show(length);
        return field;
    }

    [Theory]
    [InlineData("6 in", "12", "12 in")]
    [InlineData("6 in", " 3/8 ", "3/8 in")]
    [InlineData("6 in", "1 1/2", "1 1/2 in")]
    [InlineData("45 cm", "12.5", "12.5 cm")]
    [InlineData("8 m", ".5", ".5 m")]
    [InlineData("6 in", "30 cm", "30 cm")]
    public void It_is_read_and_its_unit_written_out_when_the_field_is_left(string shown, string typed, string left)
    {
        var field = Showing(Length.Parse(shown));
        Assert.Equal(Length.Parse(left.Trim()), field.Write(typed));
        field.Leave(typed);
        Assert.Equal((left, false), (field.Text, field.IsWrong));
    }

    [Fact]
    public void A_unit_once_typed_is_the_one_that_a_bare_number_means()
    {
        var field = Showing(Length.FromInches(6));
        field.Write("30 cm");
        field.Show(Length.FromCentimetres(30));
        Assert.Equal(Length.FromCentimetres(12), field.Write("12"));
    }

    [Theory]
    [InlineData("twelve")]
    [InlineData("-3")]
    [InlineData("3/0")]
    [InlineData("12 miles")]
    [InlineData("1 2")]
    [InlineData("")]
    public void What_is_no_length_is_none_in_any_unit(string typed)
    {
        var field = Showing(Length.FromInches(6));
        Assert.Null(field.Write(typed));
        field.Leave(typed);
        Assert.Equal((typed, true), (field.Text, field.IsWrong));
    }

    [Fact]
    public void A_field_that_showed_no_unit_wants_one()
    {
        var field = Showing(Length.Zero, optional: true);
        Assert.Null(field.Write("12"));
        Assert.Equal(Length.Zero, field.Write(""));
        Assert.Equal(Length.FromInches(2), field.Write("2 in"));
        Assert.Equal(Length.FromInches(12), field.Write("12"));
    }

    // The browser holds a form back by the pattern alone (HTML, the pattern attribute: the whole value must match).
    [Fact]
    public void The_pattern_lets_through_what_is_read_and_no_more() => Gen.Select(Gen.Bool, Gen.Bool, Gen.OneOf(
            Gen.Char["0123456789./ incmx-"].Array[0, 8].Select(c => new string(c)), Gen.OneOf("12", "3/8", "1 1/2", "12 in", "45 cm", "", " ", "1 1/2in"))).Sample((optional, unit, text) =>
        {
            var field = unit ? Showing(Length.FromInches(6), optional) : Showing(Length.Zero, optional);
            var fits = Regex.IsMatch(text, $"^(?:{field.Pattern})$");
            var read = field.Write(text) is not null;
            if (read && text.Trim().Length > 0) Assert.True(fits, $"“{text}” is read and does not match");
            if (fits && text.Trim().Length > 0 && !text.Contains("/0", StringComparison.Ordinal) && !Regex.IsMatch(text, @"/\s*0")) Assert.True(read, $"“{text}” matches and is not read");
        });
}
