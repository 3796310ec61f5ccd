using Pleatwright.Bench.Model.Table;
using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Model.Tests.Table;

/// <summary>Every verb, on every kind of piece.</summary>
public class VerbTests
{
    /// <summary>Where the hand can be: anywhere, on a cable, with an area marked, with the seam ripper, with a copy in hand.</summary>
    private static IEnumerable<(string Name, Action<AtTable> Go)> Situations =>
    [
        ("as opened", _ => { }),
        ("on a cable", OnCable),
        ("marked", at => { OnCable(at); at.Key("Ctrl+a"); at.Key("Shift+ArrowRight"); }),
        ("seam ripper", at => { OnCable(at); at.Key("."); }),
        ("copied", at => { OnCable(at); at.Key("Ctrl+c"); at.Key("PageUp"); at.Key("Home"); }),
        ("no threads", at => at.Desk.Edit("none", p => p.Threads.Aggregate(p, (q, t) => Threads.Remove(q, t.Key, null)))),
        ("from behind", at => { OnCable(at); at.Key("3"); at.Cloth.Back = true; }),
        ("a drawing begun", at => { at.Key("Home"); at.Key("Ctrl+ArrowRight"); }),
        ("on an accent", at => { OnCable(at); at.Key("4"); }),
    ];

    private static void OnCable(AtTable at)
    {
        if (AtTable.Worked(at.Desk.Work).FirstOrDefault() is { Valley: > 0 } cell) at.Needle.GoTo(new Valley(cell.Valley), new CableRow(cell.Row));
    }

    [Fact]
    public void Every_verb_is_pressed_on_an_empty_piece_a_full_one_a_ball_and_a_bishop()
    {
        var faults = new List<string>();
        var pressed = 0;
        foreach (var (name, piece) in Pieces.All)
            foreach (var (situation, go) in Situations)
                foreach (var verb in Verb.All)
                {
                    var at = new AtTable(piece);
                    go(at);
                    var (can, before, said) = (verb.Can(at.Place), at.Place.State, at.Said.Count);
                    pressed++;
                    try { verb.Do(at.Place); }
                    catch (Exception e) { faults.Add($"{name}, {situation}: {verb.Words}: {e.GetType().Name} {e.Message}"); continue; }
                    if (before.Equals(at.Place.State)) faults.Add($"{name}, {situation}: {verb.Words}: nothing changed and nothing was said");
                    if (!can && at.Said.Count == said) faults.Add($"{name}, {situation}: {verb.Words}: cannot, and nothing was said");
                    if (can && at.Said.Skip(said).Any(w => w.EndsWith("not here.", StringComparison.Ordinal))) faults.Add($"{name}, {situation}: {verb.Words}: offered and refused");
                }
        Assert.True(faults.Count == 0, string.Join("\n", faults));
        Assert.Equal(Pieces.All.Count * Situations.Count() * Verb.All.Length, pressed);
    }

    [Fact]
    public void Every_form_of_the_table_stands_in_the_list()
    {
        HashSet<Question> asked = [];
        foreach (var (_, go) in Situations.Where(s => s.Name == "as opened"))
            foreach (var verb in Verb.All)
            {
                var at = new AtTable(Pieces.Full);
                go(at);
                if (verb.Can(at.Place)) verb.Do(at.Place);
                asked.UnionWith(at.Asked);
            }
        Question[] beforeAnAct = [Question.Match, Question.Newer, Question.WhichStays, Question.Coming]; // put only where there is a doubt; DrawerHandTests and CopyTests ask them
        Assert.Equal(Enum.GetValues<Question>().Except(beforeAnAct), asked.Order());
    }

    [Fact]
    public void What_is_offered_can_be_done_even_before_the_cloth_is_shown()
    {
        foreach (var (name, piece) in Pieces.All)
        {
            var at = new AtTable(piece);
            at.Place.Cloth = NoCloth.Instance;
            Assert.DoesNotContain(Offered.At(at.Place), v => v.Key == "Ctrl+v"); // nothing was copied
            foreach (var verb in Offered.At(at.Place)) Assert.True(verb.Can(at.Place), $"{name}: {verb.Words}");
        }
    }

    [Fact]
    public void What_is_offered_changes_as_soon_as_what_can_be_done_does()
    {
        var at = new AtTable(Pieces.Empty);
        Assert.Empty(Offered.At(at.Place));
        at.Key(" ");
        Assert.Contains(Offered.At(at.Place), v => v.Short == "Close figure");
        at.Key("Ctrl+c");
        at.Key("Home");
        Assert.Equal(["Lay copy", "Close figure"], Offered.At(at.Place).Select(v => v.Short));
        at.Key("&");
        Assert.Equal(["Lay copy"], Offered.At(at.Place).Select(v => v.Short));
    }

    [Fact]
    public void Every_button_has_short_words_of_its_own_and_every_key_one_verb()
    {
        Assert.Equal(Verb.All.Count(v => v.Key.Length > 0), Verb.All.Select(v => v.Key).Where(k => k.Length > 0).Distinct().Count());
        foreach (var (_, piece) in Pieces.All)
            foreach (var (_, go) in Situations)
            {
                var at = new AtTable(piece);
                go(at);
                var shorts = Offered.At(at.Place).Select(v => v.Short).ToList();
                Assert.Equal(shorts.Count, shorts.Distinct().Count());
                Assert.All(shorts, s => Assert.InRange(s.Length, 1, 16));
            }
    }

    [Theory]
    [InlineData(" ", "Space")]
    [InlineData("Ctrl+c", "Ctrl C")]
    [InlineData("Ctrl+Shift+Z", "Ctrl Shift Z")]
    [InlineData("Ctrl+ArrowRight", "Ctrl →")]
    [InlineData("PageUp", "Page up")]
    [InlineData("Escape", "Esc")]
    [InlineData("Shift+Delete", "Shift Delete")]
    [InlineData("+", "+")]
    [InlineData("c", "c")]
    public void Keys_are_written_as_people_write_them(string key, string people) => Assert.Equal(people, KeyNames.Spell(key));

    [Fact]
    public void Space_stitches_when_it_is_lifted_and_moves_the_cloth_while_it_is_held()
    {
        var at = new AtTable(Pieces.Empty);
        at.Hand.Hear("keydown", " ");
        Assert.Empty(at.Worked());
        at.Hand.Hear("keyup", " ");
        Assert.Single(at.Worked());
        at.Key("Ctrl+z");
        var before = at.Cloth.Seen;
        at.Hand.Hear("keydown", " ");
        at.Hand.Hear("keydown", " "); // it repeats
        var (x, y) = at.Middle(20, 3);
        at.Stroke((x, y), (x + 30, y + 20));
        at.Hand.Hear("keyup", " ");
        Assert.Empty(at.Worked());
        Assert.Equal((before.X + 30, before.Y + 20), (at.Cloth.Seen.X, at.Cloth.Seen.Y));
    }

    [Fact]
    public void A_key_pressed_while_Space_is_still_down_comes_after_the_stitch()
    {
        var at = new AtTable(Pieces.Empty);
        var (valley, row) = (at.Needle.Valley.Number, at.Needle.Row.Index);
        at.Hand.Hear("keydown", " ");
        at.Hand.Hear("keydown", "ArrowRight");
        at.Hand.Hear("keyup", " ");
        Assert.Equal([(valley, row)], at.Worked());
        Assert.Equal(valley + 1, at.Needle.Valley.Number);
    }

    [Fact]
    public void A_sheet_put_away_late_does_not_take_the_next_with_it()
    {
        var at = new AtTable(Pieces.Empty);
        at.Key("/");
        var list = at.Sheets.Turn;
        Offered.Sought(at.Place, "a band").First().Do(at.Place); // Enter in the list: the band's sheet opens, then the list's own closing is told
        at.Sheets.PutAway(list);
        Assert.Equal(Question.Band, at.Sheets.Open);
        at.Sheets.PutAway(at.Sheets.Turn);
        Assert.Null(at.Sheets.Open);
    }
}
