using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>Where a new piece takes its gauge from.</summary>
public enum GaugeFrom { Kind, Swatch, Own }

/// <summary>What has been answered of a cloth so far, right or wrong; the core says what it comes to.</summary>
public sealed class ClothDraft
{
    private readonly ClothPlan old;

    private ClothDraft(ClothPlan cloth)
    {
        old = cloth;
        Form = cloth.Form.Kind;
        Values = FormValues.Begun.With(cloth.Form.Values);
        if (Form.Pieces is { } pieces) (Panels, PanelsAsCut) = ([.. Values.Pieces(pieces)], true);
        (PleatsPerInch, TakeUp, RowSpacing, PerSpace) = (cloth.Gauge.PleatsPerInch, cloth.Gauge.TakeUp, cloth.Gauge.RowSpacing, cloth.Gauge.CableRowsPerSpace);
        (Rows, Above, Below, SeamPleats) = (cloth.GatheringRows, cloth.HoldingRowsAbove, cloth.HoldingRowsBelow, cloth.SeamPleats);
        (FabricWidth, Selvedges, Ravelling, Seam) = (cloth.FabricWidth, cloth.Selvedges, cloth.Ravelling, cloth.Seam);
        (SoldBy, SeamAbove, LengthBelow, SeamBelow) = (cloth.Step, cloth.SeamAbove, cloth.LengthBelow, cloth.SeamBelow);
        if (cloth.Pleater is { } pleater) (HasPleater, PleaterRows, PleaterOverlap) = (true, pleater.Rows, pleater.Overlap);
        Colour = cloth.Colour.ToString();
    }

    /// <summary>The cloth of a piece, to be changed.</summary>
    public static ClothDraft Of(ClothPlan cloth) => new(cloth) { GaugeFrom = GaugeFrom.Own, RowsCounted = true };

    /// <summary>A new cloth with the usual starting points.</summary>
    public static ClothDraft New() => new(new NewCloth(FormKind.All[0], FormKind.All[0].Measure.Begin).Plan()) { IsNew = true };

    public bool IsNew { get; private init; }

    /// <summary>The kind of form it is to have.</summary>
    internal FormKind Form { get; set; }

    /// <summary>What the keys of any form were answered; those of another form wait until it is chosen again.</summary>
    internal FormValues Values { get; private set; }

    internal void Set(LengthKey key, Length value) => Values = Values.With(key, value);

    /// <summary>An angle in degrees; out of range it is held, and the cloth says why it cannot be.</summary>
    internal void Set(AngleKey key, double degrees)
    {
        if (double.IsFinite(degrees)) Values = Values.With(key, Angle.FromDegrees(degrees));
    }

    /// <summary>The panels as cut, once the maker has said anything of them.</summary>
    public List<RoundPanel> Panels { get; private set; } = [];

    /// <summary>Whether the maker gives the panels; else the cloth is shared out from the neck.</summary>
    public bool PanelsAsCut { get; private set; }

    public ClothKind Kind { get; set; } = ClothKind.Broadcloth;

    /// <summary>What is to be stitched on a new cloth.</summary>
    public Coming Coming { get; private set; }

    /// <summary>Says what is to be stitched: where the common gauge is asked for, it begins from what that wants.</summary>
    public void Comes(Coming coming)
    {
        if (TakeUp == Practice.TakeUpOf(Coming)) TakeUp = Practice.TakeUpOf(coming);
        Coming = coming;
    }

    public GaugeFrom GaugeFrom { get; set; }

    public double PleatsPerInch { get; set; }

    public Length TakeUp { get; set; }

    public Length RowSpacing { get; set; }

    public int PerSpace { get; set; }

    public List<SwatchDraft> Swatches { get; } = [new()];

    public Length Depth { get; set; } = Length.FromInches(3);

    /// <summary>Whether the maker counts the gathering rows; else the depth, or the ball, gives them.</summary>
    public bool RowsCounted { get; set; }

    public int Rows { get; set; }

    public int Above { get; set; }

    public int Below { get; set; }

    public int SeamPleats { get; set; }

    public Length FabricWidth { get; set; }

    public Length Selvedges { get; set; }

    public Length Ravelling { get; set; }

    public Length Seam { get; set; }

    /// <summary>The step by which the shop cuts cloth.</summary>
    public Length SoldBy { get; set; }

    public Length SeamAbove { get; set; }

    /// <summary>Length of skirt or bodice below the gathered part.</summary>
    public Length LengthBelow { get; set; }

    /// <summary>Hem or seam at the lower edge.</summary>
    public Length SeamBelow { get; set; }

    public bool HasPleater { get; set; }

    public int PleaterRows { get; set; } = 16;

    public int PleaterOverlap { get; set; } = Pleater.UsualOverlap;

    public string Colour { get; set; }

    /// <summary>What the form is measured by.</summary>
    public Length Measure => Values.Length(Form.Measure);

    /// <summary>The units the maker thinks in.</summary>
    public UnitSystem Units => Measure.Units();

    /// <summary>Takes the panels in hand as they stand, to change them.</summary>
    public void CutPanels()
    {
        if (PanelsAsCut) return;
        Panels = [.. ShownPanels];
        if (Panels.Count == 0) Panels.Add(new RoundPanel("front", Length.FromInches(20)));
        PanelsAsCut = true;
    }

    /// <summary>Whether there may be one more panel.</summary>
    public bool MayAddPanel => Panels.Count < (Form.Pieces?.Most ?? 0);

    /// <summary>One more panel, as wide as the last.</summary>
    public void AddPanel()
    {
        if (PanelsAsCut && MayAddPanel) Panels.Add(new RoundPanel($"panel {Panels.Count + 1}", Panels[^1].Cut));
    }

    public void SetPanel(int at, string name, Length cut) => Panels[at] = new RoundPanel(name, cut);

    /// <summary>Leaves a panel out; the last one stays.</summary>
    public void RemovePanel(int at)
    {
        if (Panels.Count > 1) Panels.RemoveAt(at);
    }

    /// <summary>Lets the maker count the gathering rows, from as many as the depth gives; or lets the depth give them again.</summary>
    public void CountRows(bool counted)
    {
        if (counted && !RowsCounted && Plan(out _) is { } cloth) Rows = cloth.GatheringRows;
        RowsCounted = counted;
    }

    /// <summary>What a cloth comes to, figure and words, in the order a maker asks for them.</summary>
    public static ImmutableArray<(string Value, string Words)> Sums(ClothPlan cloth, UnitSystem units)
    {
        var plan = new PleatingPlan(cloth);
        var sewn = cloth.Form.Kind.Pieces is not null;
        return
        [
            (Words.Of(plan.Pleats), "pleats"), (plan.CutWidth.Say(units), sewn ? "of panels together" : "to cut across"),
            (Words.Of(Math.Round(plan.Fullness, 2)), cloth.Form.FullnessAt is { Length: > 0 } at ? $"to 1{at}" : "to 1 fullness"),
            (Words.Of(plan.FabricWidths), plan.FabricWidths == 1 ? "width of cloth" : sewn ? "widths of cloth" : "widths to join"),
            .. cloth.IsDepthWhole ? [(ClothToBuy.Say(ClothToBuy.Of(cloth), units), "of cloth to buy")] : ImmutableArray<(string, string)>.Empty,
            (Words.Of(plan.RowsToGather), $"rows to gather, {plan.Depth.Say(units)} deep" + (plan.Passes.Length > 1 ? $", in {plan.Passes.Length} passes" : "")),
        ];
    }

    /// <summary>Lets the neck share the cloth out again.</summary>
    public void ShareOut() => PanelsAsCut = false;

    /// <summary>The panels as they would be cut.</summary>
    public ImmutableArray<RoundPanel> ShownPanels => PanelsAsCut ? [.. Panels] : Form.Pieces is { } pieces && Plan(out _) is { } cloth ? cloth.Form.Values.Pieces(pieces) : [];

    /// <summary>What the swatches say; null when none can be reckoned with.</summary>
    public Calibration? Calibration
    {
        get
        {
            if (SwatchDraft.Read(Swatches, out _) is not { IsDefaultOrEmpty: false } read) return null;
            try { return Pleatwright.Cloth.Calibration.Of(read, KindsGauge(), new Chart.Working().Tails); }
            catch (ArgumentException) { return null; } // the gauge they are held against cannot be; the fault says why
        }
    }

    /// <summary>The cloth these answers come to, or null and why not.</summary>
    public ClothPlan? Plan(out string fault)
    {
        try
        {
            fault = "";
            if (GaugeFrom == GaugeFrom.Swatch && Calibration is null)
            {
                _ = KindsGauge();
                if (SwatchDraft.Read(Swatches, out fault) is { IsDefault: false }) fault = "Write down what you counted and measured on a swatch.";
                return null;
            }
            if (!Thread.Colour.TryParse(Colour, out _)) { fault = Said.Colour; return null; }
            if (FabricWidth <= Length.Zero) { fault = "The cloth is sold wider than nothing."; return null; }
            if (new[] { Selvedges, Ravelling, Seam, SeamAbove, LengthBelow, SeamBelow }.Any(l => l < Length.Zero)) { fault = "No edge takes less than nothing."; return null; }
            if (HasPleater && (PleaterRows is < Pleater.LeastRows or > Pleater.MostRows || PleaterOverlap < 0 || PleaterOverlap >= PleaterRows))
            {
                fault = $"A pleater takes {Pleater.LeastRows} to {Pleater.MostRows} rows, and runs fewer of them through again than it takes.";
                return null;
            }
            return new NewCloth(Form, Measure)
            {
                Kind = Kind, Gauge = Gauge(), Depth = Form.AsksDepth ? Depth : null, Rows = RowsCounted ? Rows : null,
                Values = Form.Pieces is { } pieces ? Values.With(pieces, PanelsAsCut ? [.. Panels] : []) : Values,
            }.Plan(Settle);
        }
        catch (ArgumentException e)
        {
            fault = Sentences.Of(e.Why());
            return null;
        }
    }

    private ClothPlan Settle(ClothPlan cloth) => old with
    {
        Form = cloth.Form, Gauge = cloth.Gauge, GatheringRows = cloth.GatheringRows,
        HoldingRowsAbove = Above, HoldingRowsBelow = Below, SeamPleats = SeamPleats,
        Colour = Thread.Colour.Parse(Colour), FabricWidth = FabricWidth, Selvedges = Selvedges, Ravelling = Ravelling, Seam = Seam,
        SeamAbove = SeamAbove, LengthBelow = LengthBelow, SeamBelow = SeamBelow,
        SoldBy = SoldBy == old.Step ? old.SoldBy : SoldBy,
        Pleater = HasPleater ? new Pleater(PleaterRows, PleaterOverlap) : null,
    };

    private Gauge KindsGauge() => Practice.GaugeOf(Kind, Coming, TakeUp, RowSpacing, PerSpace);

    // A count of pleats that was not touched keeps the very pitch it stood for.
    private Gauge Gauge() => GaugeFrom switch
    {
        GaugeFrom.Kind => KindsGauge(),
        GaugeFrom.Swatch => Calibration!.Applied(KindsGauge()),
        _ => (PleatsPerInch == old.Gauge.PleatsPerInch
            ? new Gauge(old.Gauge.Pitch, TakeUp, RowSpacing, PerSpace)
            : Pleatwright.Cloth.Gauge.FromPleatsPerInch(PleatsPerInch, TakeUp, RowSpacing, PerSpace)) with
        { PleatThickness = IsNew ? Practice.PleatThicknessOf(Kind) : old.Gauge.PleatThickness },
    };
}
