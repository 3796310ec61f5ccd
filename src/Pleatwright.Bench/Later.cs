using Microsoft.AspNetCore.Components.WebAssembly.Services;

namespace Pleatwright.Bench;

/// <summary>What is large and not wanted at first: it is fetched when it is first wanted, and not before the table stands.</summary>
public sealed class Later(LazyAssemblyLoader loader)
{
    // named as lazy in the project file, too
    internal static readonly string[] Printing = ["PdfSharp.wasm", "PdfSharp.Shared.wasm", "Pleatwright.Typefaces.wasm"];
    private static readonly string[] Lists = ["CsvHelper.wasm"];

    private readonly Dictionary<string[], Task> fetched = [];

    /// <summary>Fetches what prints.</summary>
    /// <returns>Why it could not be had, as a sentence; empty when it is there.</returns>
    public Task<string> PrintingAsync() => FetchAsync(Printing, "What prints could not be fetched. Look whether there is a network, and try again.");

    /// <summary>Fetches what reads and writes lists.</summary>
    /// <returns>Why it could not be had, as a sentence; empty when it is there.</returns>
    public Task<string> ListsAsync() => FetchAsync(Lists, "What reads lists could not be fetched. Look whether there is a network, and try again.");

    private async Task<string> FetchAsync(string[] what, string fault)
    {
        try
        {
            if (!fetched.TryGetValue(what, out var fetching)) fetched[what] = fetching = loader.LoadAssembliesAsync(what);
            await fetching;
            return "";
        }
        catch (Exception) // the loader passes on what the page's own fetch threw, of no type of its own
        {
            fetched.Remove(what);
            return fault;
        }
    }
}
