using System.Collections.Immutable;
using System.Reflection;
using System.Text;

namespace Pleatwright.Letters;

/// <summary>
/// An alphabet drawn for the lattice. Each is one file in the folder Alphabets, and another is one more: docs/letters.md tells how a letter is drawn.
/// </summary>
internal sealed class Alphabet : ILetterSource
{
    private static readonly Lazy<ImmutableArray<Alphabet>> Drawn = new(() => [Read("plain"), Read("roman")]);

    private readonly IReadOnlyDictionary<string, DrawnLetter> letters;
    private readonly IReadOnlyDictionary<string, DrawnLetter> marks;

    /// <summary>An alphabet.</summary>
    public Alphabet(string name, string about, int zones, double spacing, int word, IReadOnlyDictionary<string, DrawnLetter> letters, IReadOnlyDictionary<string, DrawnLetter> marks)
    {
        (Name, About, Zones, Spacing, Word) = (name, about, zones, spacing, word);
        (this.letters, this.marks) = (letters, marks);
    }

    /// <summary>Every alphabet there is.</summary>
    public static ImmutableArray<Alphabet> All => Drawn.Value;

    /// <summary>The alphabet of this name; null when there is none.</summary>
    public static Alphabet? Named(string name) => All.FirstOrDefault(a => a.Name == name);

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What it looks like, in a few words.</summary>
    public string About { get; }

    /// <summary>Zones from the capital line to the base line.</summary>
    public int Zones { get; }

    /// <summary>White between two letters; see <see cref="Letters.Spacing"/>.</summary>
    public double Spacing { get; }

    /// <summary>Valleys between two words, beyond what lies between two letters.</summary>
    public int Word { get; }

    /// <summary>Every character that can be written in it, in the order of Unicode.</summary>
    public IEnumerable<string> Characters => letters.Keys.Concat(Composed.All.Where(Has)).Distinct().Order(StringComparer.Ordinal);

    /// <summary>Whether it has a character: one of its letters, or one composed of them.</summary>
    public bool Has(string character) => letters.ContainsKey(character)
        || (Composed.Of(character) is { } made && letters.ContainsKey(made.Letter) && made.Marks.All(marks.ContainsKey));

    /// <summary>A character at a size; null where it has none.</summary>
    /// <param name="character">One character, composed where it bears a mark.</param>
    /// <param name="size">How large.</param>
    public LetterShape? Shape(string character, LetterSize size)
    {
        if (letters.TryGetValue(character, out var drawn)) return drawn.At(size.Zone, Zones, size.Scale);
        if (Composed.Of(character) is not { } made || !letters.TryGetValue(made.Letter, out drawn)) return null;
        var bare = drawn.At(size.Zone, Zones, size.Scale);
        var shape = bare;
        var left = 0; // columns that marks reach out to the left of the letter
        foreach (var name in made.Marks)
        {
            if (!marks.TryGetValue(name, out var mark)) return null;
            var at = mark.At(size.Zone, 0, size.Scale);
            var (column, lower) = Where(name, at, bare, drawn, size);
            shape = shape.With(at, column + left, lower);
            left = Math.Max(left, -column);
        }
        return shape;
    }

    // Marks above lie about the line one zone above the letter, a comma below about the line one zone below the base line: on gathering rows like the letter's own lines.
    // What hangs from a letter hangs from one of its feet.
    private (int Column, int Lower) Where(string name, LetterShape mark, LetterShape bare, DrawnLetter drawn, LetterSize size)
    {
        var middle = (bare.Width - mark.Width) / 2;
        switch (name)
        {
            case "cedilla" or "ogonek":
                var feet = LetterShape.Runs(bare.Rows[^1]).ToList();
                var foot = name == "ogonek" ? feet[^1] : feet.MinBy(r => Math.Abs(r.From + r.To - bare.Width + 1));
                int first = mark.First(mark.Top), last = mark.Last(mark.Top);
                var column = name == "ogonek" ? foot.To - last : (foot.From + foot.To - first - last) / 2;
                return (column, bare.Bottom + 1 - mark.Top);
            case "comma":
                return (middle, 0);
            case "side":
                return (bare.Width + Letters.Spacing.Least, -Zones * size.Zone);
            default:
                return (middle, -(Zones + (drawn.From > 2 ? 0 : 1)) * size.Zone);
        }
    }

    private static Alphabet Read(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream($"{name}.alphabet.txt")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return AlphabetReader.Read($"{name}.alphabet.txt", reader.ReadToEnd());
    }
}
