using System.Text.RegularExpressions;

namespace Pleatwright.ReadBack;

/// <summary>
/// What the words mean to one who holds the work upright or sideways, and the patterns of the sentences and lines there are. This is the
/// reader's own list, written down from docs/directions.md and not taken from the writer.
/// </summary>
internal sealed class Frame
{
    private static readonly Frame Upright = new("up", "down", "left", "right", false), Sidelong = new("left", "right", "near", "far", true);

    private const string Started = @"step \d+ starts with (?:the rest of \d+|a longer length)";

    /// <summary>A length as printed: "18 in", "45.7 cm (18 in)".</summary>
    public const string Measure = @"\d[\d./]*(?: \d+/\d+)? (?:in|cm|mm|m)(?: \(\d[\d./]*(?: \d+/\d+)? in\))?";

    private const string Num = @"\d[\d,]*";

    private readonly string low, high, near, far;
    private readonly bool sideways;

    private Frame(string high, string low, string near, string far, bool sideways)
    {
        (this.high, this.low, this.near, this.far, this.sideways) = (high, low, near, far, sideways);
        var level = $"{high}|{low}";
        var letters = $"{Letter(near)}|{Letter(far)}";
        var away = $@"(?:(?<NAME>\d+) (?<NAMEs>{letters})|(?<NAME>0))";
        var beside = sideways ? $"on the (?<NAMEs>{near}|{far}) side of the centre" : $"(?<NAMEs>{near}|{far}) of the centre";
        var longAway = $@"(?:(?<NAME>\d+) {beside}|on the centre)";
        string Short(string name) => away.Replace("NAME", name, StringComparison.Ordinal);
        string Long(string name) => longAway.Replace("NAME", name, StringComparison.Ordinal);
        const string g = @"(?<G>G\d+(?:[+-](?:\d+ )?(?:\d/\d|\d+) space)?(?:[+-]\d+)?)";
        string Height(string name) => g.Replace("<G>", $"<{name}>", StringComparison.Ordinal);
        const string strands = @"(?<letter>[A-Za-z]), (?:“(?<name>[^”]*)”, )?(?<strands>\d+) strands?";
        const string eighths = @"(?:\d+ )?\d/\d|\d+";
        const string distance = @"(?<r>\d+(?:\.\d+)?) cable rows?";
        const string carried = $@"(?:, carried on the back(?: {distance} along the pleat)?(?: and)?(?: (?<side>\d+) pleats? sideways)?"
            + $@"|, carried on the back {distance} along the pleat, then (?<across>cabled across) (?<side>\d+) pleats|, (?<across>cabled across) (?<side>\d+) pleats on the back)?";
        string Tall(string n) => $@"(?:(?<{n}e>{eighths}) space and (?<{n}r>\d+) cable rows? from gathering row (?<{n}g>\d+) toward the (?<{n}t>top|bottom) edge"
            + $@"|(?<{n}e>{eighths}) space from gathering row (?<{n}g>\d+) toward the (?<{n}t>top|bottom) edge and (?<{n}b>\d+) cable rows? back toward the (?<{n}bt>top|bottom) edge"
            + $@"|(?<{n}e>{eighths}) space from gathering row (?<{n}g>\d+) toward the (?<{n}t>top|bottom) edge|(?<{n}r>\d+) cable rows? from gathering row (?<{n}g>\d+) toward the (?<{n}t>top|bottom) edge|(?:on )?gathering row (?<{n}g>\d+))";
        var needle = sideways ? "left of|right of" : "above|below";
        var group = $@"(?:an? (?:{level}) (?:cable|catch)|\d+ catches (?:{level})|\d+ stitch(?:es)? with the thread (?:{needle}) the needle|\d+ (?:step|bar|slip|loop)s? (?:{level}))";
        var groups = $"{group}(?:; {group})*";
        var pattern = $@"(?<pattern>(?:{groups}; then )?\d+ times \({groups}\)(?:; then {groups})?|{groups})";
        var way = $@"(?<turned>turned, )?to (?<way>{letters})";
        var ends = @"(?<then>on|tie off|hang)(?= |$)";

        Opening = R($@"There are (?<pleats>{Num}) pleats, numbered 1 to (?<to>{Num}) from {near} to {far} with the right side and the {(sideways ? "top edge on your left hand" : "top edge up")}\. "
            + $@"The centre is the valley between pleats (?<a>\d+) and (?<b>\d+); the pleat on either side of it is the first from the centre\. There (?:is|are) (?<per>\d+) cable rows? to a space; "
            + $@"row 0 lies on gathering row 1, and rows are numbered toward the bottom edge\. {(sideways ? @"The work is held sideways\. " : "")}Cables go (?<way>{(sideways ? "away from you|toward you" : "from left to right|from right to left")})\. "
            + $@"For an? {high} cable the thread is {(sideways ? "left of" : "above")} the needle, for an? {low} cable {(sideways ? "right of" : "below")} the needle; along a run they alternate\. "
            + $@"(?<turns>Where it says turned, hold the work with the {(sideways ? "top edge on your right hand; where it does not, with the top edge on your left hand" : "bottom edge up; where it does not, with the top edge up")}\. )?Every side, level and way is told as you hold the work\."
            + @"(?<halves> A half stitch squares the end of a run: before its first cable, or after its last, the needle goes through the end pleat alone, with the thread on the other side of the needle than for the cable beside it\.)?");
        Key = "In the lines, G and a number is a gathering row, + so many cable rows " + (sideways ? "right of it as the work is held, - left of it. " : "below it as the work is held, - above it. ")
            + (sideways ? "N is on the near side of the centre, F on the far side of it." : "L is left of the centre, R right of it.");
        Named = R($@"Thread {strands}\.");
        Valleys = sideways ? "Places are valleys: 0 is the centre valley, 1 F the next on the far side of it." : "Places are valleys: 0 is the centre valley, 1 R the next right of it.";
        TopEdge = sideways ? "top edge on your left hand" : "top edge up";
        BottomEdge = sideways ? "top edge on your right hand" : "bottom edge up";
        BackRows = R($@"(?<rows>G\d+(?: to G\d+)?(?:(?:, | and )G\d+(?: to G\d+)?)*) {way} {Short("from")} {Short("to")} (?<cables>\d+) each new (?<n>\d+) in all as said");
        BackRow = R($@"G(?<row>\d+) {way} {Short("from")} {Short("to")} (?<cables>\d+) (?<comes>new|on) (?<n>\d+) {ends}");
        Band = R($@"B(?<number>\d+) {Height("high")}(?: to {Height("low")})? (?<thread>[A-Za-z]) (?<comes>(?:new|rest of B(?<rest>\d+))(?:(?<half>, half left at the centre)|(?<goes>, goes on))?|the half left at the centre|on) {way} "
            + $@"{Short("from")} {Short("to")} (?:-|(?<start>\d+) of (?<of>\d+) steps? {low}) (?<count>\d+) {ends} {pattern}");
        Run = R($@"(?<step>\d+) (?<row>\d+) {Height("at")} (?<thread>[A-Za-z]) (?<comes>new(?:, (?<longer>longer))?|rest of (?<before>\d+)|start|on|hung by (?<before>\d+) at {Short("hung")})(?<same>, same run)?(?: -|(?<far> (?<crows>\d+) and (?<cpleats>\d+)(?<cabled>, cabled)?))? {way} "
            + $@"{Short("from")} {Short("to")} (?:(?<begin>{level}|-) (?=\d))?(?<cables>\d+) (?<first>{level})(?: (?<end>{level}|-)(?= (?:on|tie off|hang)))? {ends}");
        Alike = R($@"(?<first>\d+) to (?<last>\d+) (?:(?<valley>between) {Short("at")} and {Short("bt")}|pleat {Short("at")}) "
            + @"(?:(?:the same|(?<lower>\d+) (?:added to every row, (?<spaces>\d+) to every G|(?<taken>taken) from every row, (?<spaces>\d+) from every G)) (?=the same|" + high + "|" + low + "))?"
            + $@"(?:the same|(?<swapped>{high} and {low} swapped)) (?<cables>\d+) (?<n>\d+)(?: (?:(?<new>all starts new)|(?<starts>{Started}(?:, {Started})*); every other is new))?(?= |$)");
        Accent = R($@"A(?<number>\d+) (?<what>[a-z ]+?) (?<thread>[A-Za-z]) {Height("at")} (?:-|(?<size>\d+) pleats(?<upright> upright)?) (?<n>\d+) (?<places>(?:\d+ (?:{letters})|0)(?:, (?:\d+ (?:{letters})|0))*)(?= |$)");
        AlikeOpening = R(@"(?<times>\d+) figures alike, the first in steps (?<first>\d+) to (?<last>\d+) Find the centre of each, (?:(?<pleat>a pleat, which is 0)|a valley, with the first pleats on either side of it), and work the lines that follow for each, counted from there\. Steps go on by (?<by>\d+) from one figure to the next, and so does every step that a line names; steps named beside a centre are as they are\.");
        PartHeading = R($@"Pleats {Long("from")} to {Long("to")}(?!:)");
        Part = R($@"(?<range>Pleats {Long("from")} to {Long("to")}: )?(?:base row, {Tall("b")}|(?:(?<out>from the (?:base row|(?<border>border)))|back) toward the (?<way>top|bottom) edge)(?= |$)");
        Turning = R($@"Turn the work(?<back> back)?: (?<edge>{(sideways ? "top edge on your (?:left|right) hand" : "(?:top|bottom) edge up")})\.");
        LongBack = R($@"On the back, gathering row (?<row>\d+)(?<turned>, turned)?\. (?:(?<on>The same thread){carried}\.|Start a new needleful\.) From {Long("from")} \(pleat (?<fp>\d+)\) to {Long("to")} \(pleat (?<tp>\d+)\): "
            + $@"(?<cables>{Num}) cables? with (?:what is left of it|(?<n>\d+) new needlefuls?)\. (?<then>Keep the thread for the next step|Tie off)\.");
        LongBand = R($@"Band step (?<number>\d+)\. (?<what>[a-z ]+?)(?:, time (?<time>\d+) of (?<times>\d+))?(?:, journey (?<journey>\d+) of (?<journeys>\d+))?(?:, at {Tall("h")}|, between {Tall("h")} and {Tall("l")})(?<turned>, turned)?\. "
            + $@"(?:(?<start>Start(?: at the centre)?|Go on) with (?:a new needleful of {strands}|what was left of (?<letter>[A-Za-z]) after band step (?<rest>\d+))(?<half>; leave half of it hanging there at the back| and go on from the centre stitch)?\."
            + $@"|Thread the half of (?<letter>[A-Za-z]) left hanging at the centre and go on from the centre stitch\.|(?<on>The same thread) (?<letter>[A-Za-z]){carried}\.) "
            + $@"From {Long("from")} \(pleat (?<fp>\d+)\) to {Long("to")} \(pleat (?<tp>\d+)\)(?:, beginning (?<begin>\d+) of (?<of>\d+) {low})?: (?<count>{Num}) stitch(?:es)?, {pattern}\. "
            + @"(?<then>Keep the thread for the next step|The thread ends here: tie off|Tie off)\.");
        LongRun = R($@"(?:(?<step>\d+) )?(?:Turn the work(?<back> back)?: (?<edge>{(sideways ? "top edge on your (?:left|right) hand" : "(?:top|bottom) edge up")})\. )?Row (?<row>\d+), {Tall("h")}(?<turned>, turned)?\. "
            + $@"(?:(?<start>Start|Go on in the same run) with (?:what was left of (?<letter>[A-Za-z]) after step (?<before>\d+)|a new needleful of {strands}(?:, cut (?<longer>{Measure}) longer)?)\."
            + $@"|(?<on>The same thread) (?<letter>[A-Za-z]){carried}\.|Take (?<up>up) the thread (?<letter>[A-Za-z]) left hanging after step (?<before>\d+), {Long("hung")}{carried}\.) "
            + $@"From {Long("from")} \(pleat (?<fp>\d+)\) to {Long("to")} \(pleat (?<tp>\d+)\): (?:an? (?<begin>{level}) half stitch over the first pleat alone, then )?"
            + $@"(?<cables>{Num}) cables?, (?:the first )?(?<first>{level})(?: \(on the chart (?<chart>{level})\))?(?:, the last (?<last>{level}))?(?:, then an? (?<end>{level}) half stitch over the last pleat alone)?\. "
            + $@"(?:Here about (?<left>{Measure}) of the thread is left: tie off|(?<then>Tie off|Leave the thread hanging at the back|Keep the thread for the next step))\. So far (?<sofar>{Num}) cables?, (?<needlefuls>{Num}) needlefuls?\.");
        LongAccent = R($@"(?<what>[a-z ]+?) in {strands}, at {Tall("h")}: (?:(?<size>\d+) pleats? long(?<upright>, along the valley)?, )?(?<all>\d+) in all, in (?:the valleys? )?"
            + $@"(?<places>(?:{Long("p").Replace("<p>", "<p1>", StringComparison.Ordinal).Replace("<ps>", "<p1s>", StringComparison.Ordinal)}|the centre valley)(?:(?:, | and )(?:{Long("q")}|the centre valley))*)\. Begin and fasten each on the back by itself; together they take (?<n>\d+) new needlefuls?\.");
        LongPlace = new Regex($@"{Long("at")}|(?<centre>the centre valley)", Options);
        ShortPlace = new Regex(Short("at"), Options);
        Slopes = sideways ? "The thread is right of the needle for what slopes left and left of the needle for what slopes right."
            : "The thread is below the needle for what slopes up and above the needle for what slopes down.";
        Sides = R($@"Books disagree on which side of the needle outline and stem have the thread; here it lies (?<side>{needle}) the needle all along(?: in the line worked first, and (?<other>{needle}) it in the other)?\.");
        OtherWay = R($@"It is worked the other way than cables, (?<way>{(sideways ? "away from you|toward you" : "from left to right|from right to left")})\.");
        Unkept = R($@"The run over the valley {Long("at")}, row (?<row>\d+), {Tall("h")}, was to be number (?<place>\d+) among the runs, where a run worked with several threads counts once\. "
            + @"That cannot be kept: no run lies there, another has the place, or the order has fewer runs\.");
        Group = new Regex($@"\G(?:an? (?<one>{level}) (?<kind>cable|catch)|(?<n>\d+) (?<kind>catch)es (?<one>{level})|(?<n>\d+) (?<kind>stitch)(?:es)? with the thread (?<side>{needle}) the needle|(?<n>\d+) (?<kind>step|bar|slip|loop)s? (?<one>{level}))(?:; )?", Options);
    }

    private const RegexOptions Options = RegexOptions.CultureInvariant | RegexOptions.IgnoreCase;

    public Regex Opening { get; }
    public string Key { get; }
    public Regex Named { get; }
    public string Valleys { get; }
    public string TopEdge { get; }
    public string BottomEdge { get; }
    public Regex BackRows { get; }
    public Regex BackRow { get; }
    public Regex Band { get; }
    public Regex Run { get; }
    public Regex Alike { get; }
    public Regex Accent { get; }
    public Regex AlikeOpening { get; }
    public Regex PartHeading { get; }
    public Regex Part { get; }
    public Regex Turning { get; }
    public Regex LongBack { get; }
    public Regex LongBand { get; }
    public Regex LongRun { get; }
    public Regex LongAccent { get; }
    public Regex LongPlace { get; }
    public Regex ShortPlace { get; }
    public string Slopes { get; }
    public Regex Sides { get; }
    public Regex OtherWay { get; }
    public Regex Unkept { get; }
    public Regex Group { get; }

    /// <summary>The two ways of holding the work.</summary>
    public static Frame[] Both => [Upright, Sidelong];

    /// <summary>Whether a level is up, or left for work held sideways.</summary>
    public bool IsUp(string level) => level == high;

    /// <summary>The two words for levels, up first.</summary>
    public (string Up, string Down) Levels => (high, low);

    /// <summary>Whether "above", or "left of", the needle.</summary>
    public bool IsAbove(string side) => side == (sideways ? "left of" : "above");

    /// <summary>+1 for the right or far side, -1 for the left or near side, by a word or its letter.</summary>
    public int Side(string side) => side.Equals(far, StringComparison.OrdinalIgnoreCase) || side == Letter(far) ? 1 : -1;

    /// <summary>Whether a way goes from the left as held to the right.</summary>
    public bool GoesRight(string way) => way is "from left to right" or "away from you" || way == Letter(far);

    /// <summary>Whether the edge named says that the work is turned.</summary>
    public bool IsTurned(string edge) => edge == BottomEdge;

    private static string Letter(string side) => side[..1].ToUpperInvariant();

    private static Regex R(string pattern) => new(@"\G" + pattern, Options);
}
