using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Drafts;

/// <summary>Fields that are read as they are typed.</summary>
public class FieldTests
{
    // What hands write, and what is near to it.
    private static readonly Gen<string> Written = Gen.Select(Gen.OneOf("", " ", "3", "3.5", ".5", "3.", "1 1/2", "3/8", "3 / 8", "1/0", "-2", "+2", "1e3", "1 1 /2", "٣", "3,5", "1 / 2 / 3"),
        Gen.OneOf("", " ", "  "), Gen.OneOf("mm", "cm", "m", "in", "IN", "", "inch", "km"), Gen.OneOf("", " ", ".")).Select((a, b, c, d) => a + b + c + d);

    [Fact]
    public void What_the_page_lets_through_is_what_is_read_as_a_length()
    {
        var pattern = new Regex($"^(?:{Length.Pattern})$", RegexOptions.ECMAScript);
        var (read, refused) = (0, 0);
        Written.Sample(text =>
        {
            var isLength = Length.TryParse(text, out var length) && length >= Length.Zero;
            if (isLength) read++; else refused++;
            // The page may be stricter by a hair: of a sign it wants none, and what divides by nothing it lets through to be told here.
            if (isLength && !text.Contains('+') && !text.Contains('-')) Assert.Matches(pattern, text);
            if (pattern.IsMatch(text) && !text.Contains("/0")) Assert.True(isLength, text);
        }, iter: 5000, threads: 1);
        Assert.True(read > 500 && refused > 500, $"{read} read, {refused} refused");
    }

    [Fact]
    public void A_length_is_taken_over_as_it_is_typed_and_told_of_when_it_is_left_and_none()
    {
        var field = new LengthText(optional: false);
        field.Show(Length.FromInches(0.375));
        Assert.Equal("3/8 in", field.Text);
        Assert.Null(field.Write("3/"));
        Assert.False(field.IsWrong);
        field.Leave("3/");
        Assert.True(field.IsWrong);
        Assert.Equal(Length.FromCentimetres(3), field.Write("3 cm"));
        Assert.False(field.IsWrong);
        field.Show(Length.FromCentimetres(3));
        Assert.Equal("3 cm", field.Text);
    }

    [Fact]
    public void What_is_typed_stays_as_typed_and_whatever_it_is_never_throws() => Gen.Select(Gen.Int[0, Tables.Texts.Length - 1], Gen.Bool, Gen.Bool).Sample((at, optional, whole) =>
    {
        var text = Tables.Texts[at];
        var number = new NumberText(optional);
        var read = number.Write(text, -5, 5000, whole);
        Assert.Equal(text ?? "", number.Text);
        Assert.True(read is null || read is >= -5 and <= 5000 && (!whole || read == Math.Floor(read.Value)), text);
        if (read is { } value) { number.Show(value); Assert.Equal(text ?? "", number.Text); }
        var length = new LengthText(optional);
        Assert.True(length.Write(text) is null || Length.TryParse(text, out _) || optional && string.IsNullOrWhiteSpace(text));
        length.Leave(text);
        Assert.Equal(text ?? "", length.Text);
    });

    [Fact]
    public void A_field_that_may_be_empty_gives_nothing_back_as_nothing()
    {
        Assert.Equal(0, new NumberText(optional: true).Write("", 2, 9, true));
        Assert.Null(new NumberText(optional: false).Write("", 0, 9, true));
        Assert.Equal(Length.Zero, new LengthText(optional: true).Write(" "));
        Assert.Null(new LengthText(optional: false).Write(""));
    }
}
