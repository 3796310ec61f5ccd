namespace Pleatwright.Plate.Writers;

/// <summary>How every page for a screen begins: its language, its title, its style, and what it may load and run.</summary>
internal static class HtmlHead
{
    /// <summary>From the document's type up to the beginning of its body.</summary>
    /// <param name="title">The title, not yet escaped.</param>
    /// <param name="large">Whether it is in large print.</param>
    /// <param name="faces">The typefaces embedded.</param>
    /// <param name="style">Its own style sheet.</param>
    /// <param name="script">The one script that may run, as base64 of its SHA-256 (CSP Level 3); null for none.</param>
    public static string Write(string title, bool large, IEnumerable<Face> faces, string style, string? script = null) => $"""
        <!DOCTYPE html>
        <html lang="en-GB"{(large ? " class=\"large\"" : "")}>
        <head>
        <meta charset="utf-8"/>
        <meta name="generator" content="Pleatwright"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; {(script is null ? "" : $"script-src 'sha256-{script}'; ")}style-src 'unsafe-inline'; font-src data:; img-src data:"/>
        <meta name="color-scheme" content="light dark"/>
        <title>{Escaping.Xml(title)}</title>
        <style>
        {Fonts.Css(faces)}{style}</style>
        </head>

        """;
}
