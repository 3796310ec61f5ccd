using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Picture;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Tracing;

/// <summary>What is asked of a picture: whatever is written, what is traced is in its range and within the picture.</summary>
public class TraceDraftTests
{
    private static readonly Action<TraceDraft, string?>[] Acts =
    [
        (d, t) => d.SetWidth(t), (d, t) => d.SetFidelity(t), (d, t) => d.SetThreads(t), (d, t) => d.SetTolerance(t), (d, _) => d.SetMirror(true), (d, _) => d.SetHalfStitches(false), (d, _) => d.SetEnclosed(true),
        (d, t) => d.SetBare((BackgroundKind)((t?.Length ?? 0) % 3)), (d, t) => d.SetBareColour(t), (d, t) => d.SetLeft(t), (d, t) => d.SetTop(t), (d, t) => d.SetPartWidth(t), (d, t) => d.SetPartHeight(t), (d, t) => d.MarkOut(t ?? ""),
        (d, t) => d.MarkOut($"{t},{t},3,4"), (d, _) => d.Whole(),
    ];

    [Fact]
    public void Whatever_is_answered_the_options_hold_and_the_part_lies_in_the_picture() =>
        Gen.Select(Gen.Bool, Gen.Select(Gen.Int[0, Acts.Length - 1], Gen.Int[0, Tables.Texts.Length - 1]).Array[1, 15]).Sample((hasPicture, acts) =>
        {
            var (desk, _) = Tables.Set(Tables.Empty);
            var glass = new Glass(desk, null!, new HereTracing(new FakeTimeProvider()), new FakeTimeProvider());
            if (hasPicture) glass.Lay(new Raster(30, 20, new byte[30 * 20 * 4]), "boat");
            var draft = new TraceDraft(glass);
            foreach (var (act, text) in acts)
            {
                Acts[act](draft, Tables.Texts[text]);
                glass.Options.Check();
                var part = draft.Part;
                if (hasPicture)
                {
                    Assert.InRange(part.X, 0, 29);
                    Assert.InRange(part.Y, 0, 19);
                    Assert.InRange(part.Width, 1, 30 - part.X);
                    Assert.InRange(part.Height, 1, 20 - part.Y);
                }
                _ = (draft.Fidelity, draft.Tolerance, draft.BareColour, draft.ProofWords, draft.IsReady, draft.AsPiece(), draft.Findings.Count());
            }
        }, iter: 400, threads: 1);
}
