using Pleatwright.Tests.Endurance;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Letters;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Letters;

/// <summary>What holds for any text in any alphabet, however it is arranged and whatever the gauge.</summary>
public class LetteringLaws
{
    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static readonly Gen<Alphabet> Alphabets = OneOf([.. Alphabet.All]);

    // Most pieces have 3 to 8 cable rows to a space; any that can be had is tried.
    private static readonly Gen<int> PerSpace = Gen.Frequency((4, Gen.Int[3, 8]), (1, Gen.Int[1, 20]));

    private static Gen<string> Word(Alphabet alphabet, int most) => OneOf([.. alphabet.Characters]).Array[1, most].Select(c => string.Concat(c));

    private static Gen<string> Text(Alphabet alphabet) => Word(alphabet, 8).Array[1, 3].SelectMany(words => OneOf(" ", "\n").Select(between => string.Join(between, words)));

    private static readonly Gen<(LetteringOptions Options, int PerSpace, Phase Phase)> Texts =
        from alphabet in Alphabets
        from arrangement in OneOf(Arrangement.Row, Arrangement.Along, Arrangement.Down, Arrangement.Monogram)
        from text in arrangement == Arrangement.Monogram ? OneOf([.. alphabet.Characters]).Array[2, 3].Select(c => string.Concat(c)) : Text(alphabet)
        from height in Gen.Frequency((3, Gen.Int[0, 0].Select(_ => (int?)null)), (1, Gen.Int[1, 60].Select(h => (int?)h)))
        from across in Gen.Int[20, 400]
        from border in Gen.Bool
        from perSpace in PerSpace
        from phase in OneOf(Phase.Even, Phase.Odd)
        select (new LetteringOptions { Text = text, Source = alphabet, Arrangement = arrangement, Height = height, Across = arrangement == Arrangement.Along ? across : null, Border = border }, perSpace, phase);

    private static readonly Floss Thread = new(new ThreadKey('a'), "sail red", Colour.Parse("#b3202c"), Floss.DefaultStrands);

    private static Work Laid(LetteringOptions options, int perSpace, Phase phase, out SetText set)
    {
        // Rows as far apart as this many cable rows take at the common gauge, so that thread covers alike.
        var gauge = new Gauge(Length.FromMillimetres(1.6), Length.FromMillimetres(6), Length.FromMillimetres(1.905 * perSpace), perSpace);
        var lettered = LetteredPiece.Around(options, Thread, null, gauge, "Letters");
        set = lettered.Set;
        return Smocking.Lay(lettered.Piece with { Phase = phase });
    }

    [Fact]
    public void Any_text_passes_the_proof() => Texts.Sample(t =>
    {
        var work = Laid(t.Options, t.PerSpace, t.Phase, out _);
        var grave = Smocking.Prove(work).Where(f => f.Severity != Severity.Note).ToList();
        Assert.True(grave.Count == 0, string.Join("\n", grave.Take(3).Select(f => $"{f.Rule}: {f.Message}")));
    }, iter: 150);

    /// <summary>Every character by itself, at every number of cable rows to a space that is in use, and under endurance at all: nothing is left to chance here.</summary>
    [Fact]
    public void Every_letter_passes_the_proof_at_every_gauge()
    {
        var wrong = new Dictionary<string, string>();
        foreach (var alphabet in Alphabet.All)
            foreach (var perSpace in Enumerable.Range(1, Gauge.MostCableRowsPerSpace).Where(p => p <= 8 || p == Gauge.MostCableRowsPerSpace || Long.IsWhole))
                foreach (var times in perSpace == 5 ? new[] { 1, 2, 3, 4 } : [1, 2])
                {
                    var rows = LetterSize.Times(perSpace, times).Capitals(alphabet.Zones);
                    // All of them as lines of one text would be too long: twenty at a time, well apart.
                    foreach (var some in alphabet.Characters.Chunk(40))
                    {
                        var work = Laid(new LetteringOptions { Text = string.Concat(some), Source = alphabet, Height = rows }, perSpace, Phase.Even, out var set);
                        foreach (var finding in Smocking.Prove(work).Where(f => f.Severity != Severity.Note || f.Rule == "base-row"))
                        {
                            var column = finding.From.Number - (work.Footprints[0].From.Number);
                            var letter = set.Letters.LastOrDefault(l => l.Left <= column)?.Character;
                            wrong.TryAdd($"{alphabet.Name} {letter} {finding.Rule}", $"{perSpace} ×{times} {finding.Message}");
                        }
                    }
                }
        Assert.True(wrong.Count == 0, $"{wrong.Count}:\n" + string.Join("\n", wrong));
    }
}
