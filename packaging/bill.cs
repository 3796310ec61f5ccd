#:property RestorePackagesWithLockFile=false
#:property PublishAot=false
#:property GenerateDocumentationFile=false
#:property EnforceCodeStyleInBuild=false
#:property RunAnalyzers=false
// What one archive holds and under which licence: its bill of materials (CycloneDX 1.6, JSON) and the licences' texts. Run by ./package, as
//   dotnet run packaging/bill.cs -- SYSTEM VERSION PACKAGES FOLDER
// SYSTEM is the archive's; PACKAGES the folder that packages are restored to; FOLDER what will be packed, in which licences/ and bill-of-materials.cdx.json are written.
// A package is held when one of its files is: in the program, as the build says of it, or in the bench, as its files say themselves.
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;

if (args is not [var system, var version, var packages, var folder]) { Console.Error.WriteLine("bill: takes SYSTEM VERSION PACKAGES FOLDER."); return 2; }

var held = new SortedSet<(string Name, string Version)>();
var program = Json($"src/Pleatwright.App/obj/Release/net10.0/{system}/pleatwright.deps.json")["targets"]!.AsObject().Single(t => t.Key.EndsWith("/" + system, StringComparison.Ordinal)).Value!.AsObject();
foreach (var (name, of) in program)
    if (!name.StartsWith("Pleatwright", StringComparison.OrdinalIgnoreCase) && (Has(of, "runtime") || Has(of, "native")))
        Hold(name.StartsWith("runtimepack.", StringComparison.Ordinal) ? name["runtimepack.".Length..] : name);
var bench = Directory.GetFiles(Path.Combine(folder, "wwwroot", "_framework"), "*.wasm").Select(Path.GetFileNameWithoutExtension).ToHashSet();
foreach (var (name, of) in Json("src/Pleatwright.Bench/obj/project.assets.json")["targets"]!["net10.0/browser-wasm"]!.AsObject())
    if ((string?)of!["type"] == "package" && of["runtime"] is JsonObject files && files.Any(f => bench.Contains(Path.GetFileNameWithoutExtension(f.Key)))) Hold(name);
const string browser = "Microsoft.NETCore.App.Runtime.Mono.browser-wasm"; // what the bench runs on: of the version that the program's own runtime has
Hold($"{browser}/{held.Single(h => h.Name == $"Microsoft.NETCore.App.Runtime.{system}").Version}");

var licences = Path.Combine(folder, "licences");
Directory.CreateDirectory(licences);
var told = new StringBuilder("What this program is built on, and under which licence. MIT: the words of Pleatwright.txt with the copyright named here. Of two licences, Apache-2.0.\n");
var components = new JsonArray();
var kept = new Dictionary<string, string>(); // many packages bring the same words
foreach (var (name, of) in held)
{
    var from = Path.Combine(packages, name.ToLowerInvariant(), of.ToLowerInvariant());
    var about = XDocument.Load(Path.Combine(from, name.ToLowerInvariant() + ".nuspec")).Descendants().First(e => e.Name.LocalName == "metadata");
    string Field(string key) => about.Elements().FirstOrDefault(e => e.Name.LocalName == key)?.Value.ReplaceLineEndings(" ").Trim() ?? "";
    var isExpression = (string?)about.Elements().FirstOrDefault(e => e.Name.LocalName == "license")?.Attribute("type") == "expression";
    told.Append($"{name} {of}: {Field("license")}. {Field("copyright")}\n");
    foreach (var text in Directory.GetFiles(from).Where(f => Path.GetFileName(f).StartsWith("license", StringComparison.OrdinalIgnoreCase) || Path.GetFileName(f).StartsWith("third-", StringComparison.OrdinalIgnoreCase)).Order(StringComparer.Ordinal))
    {
        var sum = Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(text)));
        if (kept.TryAdd(sum, $"{name}-{Path.GetFileName(text)}")) File.Copy(text, Path.Combine(licences, kept[sum]), overwrite: true);
        told.Append($"  see {kept[sum]}\n");
    }
    var reference = $"pkg:nuget/{name}@{of}";
    var component = new JsonObject { ["type"] = "library", ["bom-ref"] = reference, ["name"] = name, ["version"] = of };
    var sha512 = Path.Combine(from, $"{name.ToLowerInvariant()}.{of.ToLowerInvariant()}.nupkg.sha512");
    if (File.Exists(sha512)) component["hashes"] = new JsonArray(new JsonObject { ["alg"] = "SHA-512", ["content"] = Convert.ToHexStringLower(Convert.FromBase64String(File.ReadAllText(sha512).Trim())) });
    component["licenses"] = isExpression && Field("license").Contains(' ', StringComparison.Ordinal) ? new JsonArray(new JsonObject { ["expression"] = Field("license") })
        : new JsonArray(new JsonObject { ["license"] = new JsonObject { [isExpression ? "id" : "name"] = Field("license") } });
    if (Field("copyright").Length > 0) component["copyright"] = Field("copyright");
    component["purl"] = reference;
    components.Add(component);
}
foreach (var font in (string[])["Fraunces", "Nunito Sans"])
    components.Add(new JsonObject { ["type"] = "file", ["bom-ref"] = font, ["name"] = font, ["licenses"] = new JsonArray(new JsonObject { ["license"] = new JsonObject { ["id"] = "OFL-1.1" } }) });
File.WriteAllText(Path.Combine(licences, "built-on.txt"), told.ToString());

var bill = new JsonObject
{
    ["bomFormat"] = "CycloneDX",
    ["specVersion"] = "1.6",
    ["version"] = 1,
    ["metadata"] = new JsonObject
    {
        ["component"] = new JsonObject
        {
            ["type"] = "application", ["bom-ref"] = "pleatwright", ["name"] = "pleatwright", ["version"] = version,
            ["licenses"] = new JsonArray(new JsonObject { ["license"] = new JsonObject { ["id"] = "MIT" } }),
            ["properties"] = new JsonArray(new JsonObject { ["name"] = "pleatwright:system", ["value"] = system }),
        },
    },
    ["components"] = components,
    ["dependencies"] = new JsonArray(new JsonObject { ["ref"] = "pleatwright", ["dependsOn"] = new JsonArray([.. components.Select(c => JsonValue.Create((string)c!["bom-ref"]!))]) }),
};
File.WriteAllText(Path.Combine(folder, "bill-of-materials.cdx.json"), bill.ToJsonString(new JsonSerializerOptions { WriteIndented = true, NewLine = "\n" }) + "\n");
return 0;

void Hold(string name) => held.Add((name.Split('/')[0], name.Split('/')[1]));
static bool Has(JsonNode? of, string kind) => of?[kind] is JsonObject { Count: > 0 };
static JsonNode Json(string path) => JsonNode.Parse(File.ReadAllBytes(path))!;
