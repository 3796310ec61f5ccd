using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// axe on a page, run where it stands: no page of ours holds another's frame, and to gather the faults of frames the package's own way
/// opens a second page each time and reads all of axe into both, which took more than the looking.
/// </summary>
internal static class Axe
{
    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    /// <summary>No fault that axe calls serious or critical, on what is shown now.</summary>
    public static async Task NoSeriousFaultAsync(IPage page)
    {
        Assert.Single(page.Frames);
        if (!await page.EvaluateAsync<bool>("!!window.axe")) await page.EvaluateAsync(Script + "; 0");
        var faults = await page.EvaluateAsync<string[]>("""
            async () => (await axe.run(document, { resultTypes: ["violations"] })).violations.filter(v => v.impact === "serious" || v.impact === "critical")
              .map(v => `${v.impact} ${v.id}: ${v.help}: ${v.nodes.slice(0, 4).map(n => n.html).join(" | ")}`)
            """);
        Assert.True(faults.Length == 0, string.Join("\n", faults));
    }
}
