using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Extensions.FileProviders;

namespace Pleatwright.App.Host;

/// <summary>
/// The Content-Security-Policy (CSP Level 3) of the bench: its own files only, WebAssembly allowed, and of inline
/// scripts just the import map that the build wrote into its page, told by its SHA-256.
/// </summary>
public static partial class ContentPolicy
{
    /// <summary>The policy for the bench in this web root.</summary>
    public static string For(IFileProvider webRoot)
    {
        var page = webRoot.GetFileInfo("index.html");
        var inline = new StringBuilder();
        if (page.Exists)
        {
            using var reader = new StreamReader(page.CreateReadStream());
            foreach (Match script in InlineScript().Matches(reader.ReadToEnd()))
                inline.Append(" 'sha256-").Append(Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script.Groups[1].Value)))).Append('\'');
        }
        return "default-src 'none'; base-uri 'self'; form-action 'none'; frame-ancestors 'none'; object-src 'none'; "
            + $"script-src 'self' 'wasm-unsafe-eval'{inline}; style-src 'self'; style-src-attr 'unsafe-inline'; "
            + "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'";
    }

    [GeneratedRegex("""<script(?![^>]*\bsrc=)[^>]*>([\s\S]*?)</script>""")]
    private static partial Regex InlineScript();
}
