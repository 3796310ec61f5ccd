using System.Text.RegularExpressions;

namespace Pleatwright.Tests;

/// <summary>The pages for people: what they point to is there.</summary>
public partial class PagesTests
{
    public static TheoryData<string> Pages =>
    [
        .. Directory.GetFiles(Repository.Root, "*.md").Concat(Directory.GetFiles(Repository.Path("docs"), "*.md"))
            .Select(p => Path.GetRelativePath(Repository.Root, p)).Order(),
    ];

    [Theory, MemberData(nameof(Pages))]
    public void Every_link_leads_to_a_file_and_to_a_heading_that_is_there(string page)
    {
        var folder = Path.GetDirectoryName(Repository.Path(page))!;
        foreach (Match link in Link().Matches(File.ReadAllText(Repository.Path(page))))
        {
            var (target, heading) = (link.Groups["file"].Value, link.Groups["heading"].Value);
            var path = target.Length == 0 ? Repository.Path(page) : Path.Combine(folder, target);
            Assert.True(Path.Exists(path), $"{page}: {link.Value}");
            if (heading.Length > 0) Assert.Contains(heading, Headings(File.ReadAllText(path)));
        }
    }

    [Theory, MemberData(nameof(Pages))]
    public void Every_path_that_is_named_is_there(string page) =>
        Assert.All(Named().Matches(File.ReadAllText(Repository.Path(page))), m => Assert.True(Path.Exists(Repository.Path(m.Groups[1].Value)), $"{page}: {m.Value}"));

    // As pages on the web name their headings: lower case, hyphens for spaces, no other signs.
    private static IEnumerable<string> Headings(string text) => Heading().Matches(text)
        .Select(m => string.Concat(m.Groups[1].Value.Trim().ToLowerInvariant().Where(c => char.IsLetterOrDigit(c) || c is ' ' or '-')).Replace(' ', '-'));

    [GeneratedRegex(@"\]\((?!https?:)(?<file>[^)#\s]*)(#(?<heading>[^)\s]+))?\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#+ (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    // Whole paths alone: no pattern, no placeholder, nothing that a build makes.
    [GeneratedRegex(@"`((?:src|tests|perf|docs|examples)/[\w./-]+)`(?<!/bin/.*)")]
    private static partial Regex Named();
}
