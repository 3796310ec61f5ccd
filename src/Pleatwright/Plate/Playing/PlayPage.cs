using System.Security.Cryptography;
using System.Text;
using Pleatwright.Cloth;
using Pleatwright.Plate.Writers;
using Pleatwright.Stitched;

namespace Pleatwright.Plate.Playing;

/// <summary>A page that plays a film by itself: one small file, which needs no network and may run no script but its own.</summary>
internal static class PlayPage
{
    private static readonly string Script = Player.Script + Player.Read("PlayPage.js");

    private const string Style = """
        :root{color-scheme:light dark;--ink:#26303b;--paper:#faf7f1;--line:#6b7480}
        @media(prefers-color-scheme:dark){:root{--ink:#eceae4;--paper:#1d2126;--line:#9aa3ad}}
        *{box-sizing:border-box}
        html,body{height:100%;margin:0}
        body{display:flex;flex-direction:column;gap:.5rem;padding:.75rem;font:1.15rem/1.4 system-ui,sans-serif;color:var(--ink);background:var(--paper)}
        h1{margin:0;font-size:1.25rem}
        canvas{flex:1 1 12rem;min-height:8rem;width:100%;border-radius:.5rem}
        #number{font-size:2rem;font-weight:700;margin:0;line-height:1}
        #caption{min-height:2.8em;margin:0;font-size:1.35rem}
        .keys{display:flex;flex-wrap:wrap;gap:.5rem}
        button{font:inherit;min-height:3rem;min-width:3rem;padding:.3rem 1rem;border:2px solid var(--line);border-radius:.5rem;background:transparent;color:inherit}
        button[aria-pressed=true],#play{background:#2f6f79;border-color:#2f6f79;color:#fff}
        button:disabled{opacity:.45}
        button:focus-visible{outline:3px solid #c2571a;outline-offset:2px}
        @media(max-height:30rem) and (min-width:40rem){body{display:grid;grid-template:auto auto 1fr auto/1fr 19rem;gap:.3rem .75rem}canvas{grid-row:1/5;height:100%}#caption{font-size:1.1rem}#number{font-size:1.4rem}}

        """;

    /// <summary>The most parts that a page of its own carries painted; a longer film stays drawn, so that the page stays small.</summary>
    public const int MostPainted = 6;

    /// <summary>What lies under the needle, painted for a page.</summary>
    /// <param name="film">The film.</param>
    /// <param name="told">Told how much is done, 0 to 1.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Null where that would be more than a small page holds.</returns>
    public static IReadOnlyList<(Lying Part, byte[] Before, byte[] After)>? Paint(Film film, IProgress<double> told, CancellationToken cancel)
    {
        const double aspect = 1.2, widest = 26, perMillimetre = 24;
        var parts = Lying.Of(film, aspect, widest);
        if (parts.Length is 0 or > MostPainted) return null;
        List<(Lying, byte[], byte[])> painted = [];
        foreach (var part in parts)
        {
            painted.Add((part, JpegFile.Write(part.Paint(false, perMillimetre, cancel)), JpegFile.Write(part.Paint(true, perMillimetre, cancel))));
            told.Report(painted.Count / (double)parts.Length);
        }
        return painted;
    }

    /// <summary>Writes the page.</summary>
    /// <param name="film">The film.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="painted">What lies under the needle; see <see cref="Paint"/>. Drawn where there is none.</param>
    public static string Write(Film film, Gauge gauge, IReadOnlyList<(Lying Part, byte[] Before, byte[] After)>? painted = null)
    {
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Script)));
        return HtmlHead.Write(film.Title, false, [], Style, hash) + $"""
            <body>
            <canvas id="cloth" role="img" aria-label="Needle and thread on the pleats; the words tell each move"></canvas>
            <h1 dir="auto">{Escaping.Xml(film.Title)}</h1>
            <p id="number"></p>
            <p id="caption" role="status" aria-live="polite"></p>
            <div class="keys">
            <button type="button" id="play">Play</button>
            <button type="button" id="back">Back one move</button>
            <button type="button" id="next">Next move</button>
            <button type="button" id="pace">Slower</button>
            <button type="button" id="loop" aria-pressed="false">Loop this move</button>
            </div>
            <noscript><p>This page plays with a script, and scripts are off here.</p></noscript>
            <script type="application/json" id="film">{FilmData.Of(film, gauge, painted)}</script>
            <script>{Script}</script>
            </body>
            </html>

            """;
    }
}
