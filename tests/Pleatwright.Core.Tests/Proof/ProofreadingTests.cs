using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Proof;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Proof;

public class ProofreadingTests
{
    // Pieces with every kind of fault: repeats that overlap, flips, half stitches asked for anywhere, thin threads.
    private static readonly Gen<Piece> Faulty =
        from piece in Gen.OneOf(Drawn.Pieces, PieceGen.Pieces)
        from rows in Gen.Int[0, 100].Array[0, 3]
        from left in Gen.Bool
        from flip in Gen.Bool
        from mirror in Gen.Bool
        from shift in Gen.Int[-9, 9]
        from down in Gen.Int[-4, 4]
        from second in Gen.Bool
        from back in Gen.Enum<Backsmocking>()
        let figure = piece.Figures[0] with
        {
            // On rows with cables: one on a bare row can lie hidden under another figure until that moves away.
            Halves = [.. rows.Where(r => piece.Figures[0].Rows[r % piece.Figures[0].Height].AsSpan().ContainsAnyExcept(Figure.Bare)).Select(r => new HalfMark(r % piece.Figures[0].Height, left ? RunEnd.Left : RunEnd.Right)).Distinct()],
        }
        let moved = piece.Placements[0] with
        {
            FlipPhase = flip,
            Mirror = mirror,
            Centre = Centre.At(new Valley(Math.Max(1, Work.Lay(piece).Pleating.CentreValley + shift))),
            GatheringRow = new GatheringRow(Math.Max(1, piece.Placements[0].GatheringRow.Number + down)),
        }
        select piece with
        {
            Figures = [figure],
            Placements = second ? [.. piece.Placements, moved] : [moved],
            Back = back,
        };

    [Fact]
    public void Findings_point_inside_the_cloth_and_say_what_to_do() => Faulty.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var f in Proofreading.Read(work))
        {
            Assert.InRange(f.Row.Index, 0, f.LastRow.Index);
            Assert.InRange(f.LastRow.Index, 0, work.CableRows - 1);
            Assert.InRange(f.From.Number, 1, f.To.Number);
            Assert.InRange(f.To.Number, 1, work.Valleys);
            Assert.Contains(Proofreading.Rules, r => r.Name == f.Rule);
            Assert.True(f.Message.EndsWith('.') && f.Remedy.EndsWith('.'));
            Assert.False(char.IsLower(f.Message[0]), f.Message);
        }
    });

    [Fact]
    public void Errors_come_first_then_the_rules_in_their_order_then_places_from_the_top() => Faulty.Sample(piece =>
    {
        var findings = Proofreading.Read(Work.Lay(piece));
        var keys = findings.Where(f => !f.Message.StartsWith("The same again")).Select(f => (f.Severity, Rule: Proofreading.Rules.IndexOf(Proofreading.Rules.Single(r => r.Name == f.Rule)), f.Row, f.From)).ToList();
        Assert.Equal(keys.Order(), keys);
        var counts = Counts.Of(findings);
        Assert.Equal(findings.Length, counts.Errors + counts.Warnings + counts.Notes);
        Assert.Equal(findings.Count(f => f.Severity == Severity.Error), counts.Errors);
        Assert.Equal(findings.Count(f => f.Severity == Severity.Warning), counts.Warnings);
    });

    [Fact]
    public void Rules_have_names_of_their_own() =>
        Assert.Equal(Proofreading.Rules.Length, Proofreading.Rules.Select(r => r.Name).Where(n => n.All(c => char.IsAsciiLetterLower(c) || c == '-')).Distinct().Count());

    // Told once for the whole piece, at the first place from the left: a looking glass moves that.
    private static readonly ImmutableArray<string> ToldOnce = ["coverage", "threads-alike", "thread-like-cloth"];

    [Fact]
    public void A_looking_glass_turns_the_findings_round() => Drawn.Pieces.Sample(piece =>
    {
        var valleys = Work.Lay(piece).Valleys;
        var seen = Proofreading.Read(Work.Lay(piece)).Select(f => (f.Rule, f.Severity, ToldOnce.Contains(f.Rule) ? default : f.Place with
        {
            From = new Valley(valleys + 1 - f.To.Number),
            To = new Valley(valleys + 1 - f.From.Number),
        }));
        var mirrored = Proofreading.Read(Work.Lay(Drawn.Mirrored(piece))).Select(f => (f.Rule, f.Severity, ToldOnce.Contains(f.Rule) ? default : f.Place));
        Assert.Equal(seen.Select(s => s.ToString()).Order(), mirrored.Select(s => s.ToString()).Order());
    });

    [Fact]
    public void A_mend_mends_and_breaks_nothing() => Faulty.Sample(piece =>
    {
        var before = Proofreading.Read(Work.Lay(piece));
        foreach (var finding in before)
        {
            if (finding.Mend is not { } mend) continue;
            var after = Proofreading.Read(Work.Lay(mend.Apply(piece)));
            Assert.False(string.IsNullOrWhiteSpace(mend.Words));
            int Like(ImmutableArray<Finding> findings) => findings.Count(f => f with { Mend = null } == finding with { Mend = null });
            Assert.True(Like(after) < Like(before), $"{finding.Message} {mend.Words}");
            Assert.True(Counts.Of(after).Errors <= Counts.Of(before).Errors, $"{finding.Message} {mend.Words}: "
                + string.Join("; ", after.Where(f => f.Severity == Severity.Error).Select(f => f.Message).Except(before.Select(f => f.Message))));
        }
    }, iter: Long.Of(1000, 3000));

    [Fact]
    public void Each_rule_tells_of_so_many_places_and_counts_the_rest()
    {
        // Single cables with bare valleys between, in every other row: a piece full of one fault.
        var row = string.Concat(Enumerable.Repeat("a..", 40)) + "a";
        var work = Drawn.Work(2, [.. Enumerable.Range(0, 41).Select(i => i % 2 == 0 ? row : new string('.', row.Length))]);
        var lone = Proofreading.Read(work).Where(f => f.Rule == "lone-cable").ToList();
        Assert.Equal(Findings.MostShown + 1, lone.Count);
        Assert.StartsWith($"The same again in {41 * 21 - Findings.MostShown} more places", lone[^1].Message);
    }

    [Fact]
    public void A_rectangle_from_one_gathering_row_to_another_is_faultless() =>
        Gen.Select(Gen.Int[3, 40], Gen.Int[1, 5], Gen.Int[0, 6]).Sample((half, spaces, margin) =>
        {
            var row = new string('.', margin) + new string('a', 2 * half + 1) + new string('.', margin);
            Assert.DoesNotContain(Proofreading.Read(Drawn.Work(5, [.. Enumerable.Repeat(row, spaces * 5 + 1)])), f => f.Severity != Severity.Note);
        });

    [Fact]
    public void A_triangle_of_odd_rows_down_to_three_is_faultless() => Gen.Select(Gen.Int[2, 20], Gen.Bool).Sample((half, pointsUp) =>
    {
        var width = 2 * half + 3;
        var rows = Enumerable.Range(0, half).Select(r => new string('.', r) + new string('b', width - 2 * r) + new string('.', r)).ToArray();
        if (pointsUp)
        {
            var bare = new string('.', width);
            var above = (5 - (half - 1) % 5) % 5; // the base on a gathering row
            rows = [.. Enumerable.Repeat(bare, above), .. rows.Reverse()];
        }
        Assert.DoesNotContain(Proofreading.Read(Drawn.Work(5, rows)), f => f.Severity != Severity.Note);
    });

    [Fact]
    public void An_empty_piece_has_only_unheld_rows() =>
        Assert.All(Proofreading.Read(Drawn.Work(5, ".......")), f => Assert.Equal("unheld-row", f.Rule));
}
