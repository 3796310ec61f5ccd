using System.Globalization;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Text;

namespace Pleatwright.Stitched;

/// <summary>
/// The numbers that light and form need on a graphics card, as constants of its language (OpenGL ES Shading Language 3.00). Each is stated where the core reckons with it
/// and goes by the same name on the card, whose own text states none; a test holds that.
/// </summary>
internal static class GraphicsNumbers
{
    /// <summary>The constants of a piece, a line each.</summary>
    public static string Of(StitchedPiece piece)
    {
        var text = new StringBuilder(8000);
        var field = piece.Field;

        // Light.
        Say(Shading.Lamp); Say(Shading.Around); Say(Shading.ThreadMean); Say(Shading.ClothMean);
        Say(Shading.Glow); Say(Shading.Sheen); Say(Shading.SheenLeast); Say(Shading.SheenOwn); Say(Shading.SheenShift); Say(Shading.SheenSharp); Say(Shading.GlowShift); Say(Shading.GlowSharp);
        Say(Shading.FibreShare); Say(Shading.WrapThread); Say(Shading.WrapCloth); Say(Shading.FacesSteep); Say(Shading.FacesLeast);
        Say(Shading.ShadowSoft); Say(Shading.ShadowSofter); Say(Shading.ShadowDark); Say(Shading.NearDark); Say(Shading.WiderDark);
        Say(Shading.SkyFaces); Say(Shading.SkyAbove); Say(Shading.SkyLeft); Say(Shading.SkyLeast); Say(Shading.Back); Say(Shading.Paler); Say(Shading.PalerSheen);
        SayWay(Shading.Warm); SayWay(Shading.Cool); SayWay(Shading.Eye);
        SayWay(Light.UpperLeft.Toward);
        Say(Light.UpperLeft.Strength);
        Say(Painter.HighlightFrom);
        text.Append(CultureInfo.InvariantCulture, $"const float ShadowSteps[{Shading.ShadowSteps.Length}] = float[{Shading.ShadowSteps.Length}]({string.Join(", ", Shading.ShadowSteps.Select(Real))});\n");
        SayWhole("ShadowCount", Shading.ShadowSteps.Length);
        SayWhole(nameof(Shading.SharpSteps), Shading.SharpSteps);

        // Cloth.
        Say(Relief.CrownRound); Say(Relief.Tuck); Say(Relief.WideDeep); Say(Relief.HeldShallow); Say(Relief.HeldSmooth); Say(Relief.PleatSeen); Say(Relief.PleatWhole);
        Say(Relief.ContactReach); Say(Relief.ContactLeft); Say(Relief.NearReach); Say(Relief.WiderReach); Say(Relief.WidestPitch);
        Say(Unevenness.SoftLong); Say(Unevenness.Soft); Say(Unevenness.BulgeLong); Say(Unevenness.Bulge); Say(Unevenness.RippleLong); Say(Unevenness.Ripple); Say(Unevenness.RiseStep);
        Say(Unevenness.DimpleSharp); Say(Unevenness.Dimpled); Say(Unevenness.DimpleChance); Say(Unevenness.FullLong); Say(Unevenness.Fuller); Say(Unevenness.ToneLong); Say(Unevenness.Toned);
        Say(Unevenness.LeanLong); Say(Unevenness.Leans); Say(Unevenness.SwayLong); Say(Unevenness.Sways); Say(Unevenness.Aslant); Say(Unevenness.UpLong); Say(Unevenness.Up); Say(Unevenness.Tall);
        SayWhole(nameof(Unevenness.DimplePurpose), Unevenness.DimplePurpose); SayWhole(nameof(Unevenness.SoftPurpose), Unevenness.SoftPurpose); SayWhole(nameof(Unevenness.BulgePurpose), Unevenness.BulgePurpose);
        SayWhole(nameof(Unevenness.RipplePurpose), Unevenness.RipplePurpose); SayWhole(nameof(Unevenness.TonePurpose), Unevenness.TonePurpose); SayWhole(nameof(Unevenness.FullPurpose), Unevenness.FullPurpose);
        SayWhole(nameof(Unevenness.LeanPurpose), Unevenness.LeanPurpose); SayWhole(nameof(Unevenness.SwayPurpose), Unevenness.SwayPurpose); SayWhole(nameof(Unevenness.AslantPurpose), Unevenness.AslantPurpose);
        SayWhole(nameof(Unevenness.UpPurpose), Unevenness.UpPurpose); SayWhole(nameof(Unevenness.TallPurpose), Unevenness.TallPurpose);
        Say(ClothWeave.Warp); Say(ClothWeave.Weft); Say(ClothWeave.Turned); Say(ClothWeave.Aside); Say(ClothWeave.YarnSteep); Say(ClothWeave.YarnAlong); Say(ClothWeave.YarnThick);
        Say(ClothWeave.YarnDark); Say(ClothWeave.YarnLight); Say(ClothWeave.YarnTone); Say(ClothWeave.KnotTone); Say(ClothWeave.Wanders); Say(ClothWeave.WandersFinely);
        Say(ClothWeave.WarpOften); Say(ClothWeave.WarpFinely); Say(ClothWeave.WeftOften); Say(ClothWeave.WeftFinely); Say(ClothWeave.YarnSeen); Say(ClothWeave.YarnWhole);
        SayWhole(nameof(ClothWeave.Yarns), ClothWeave.Yarns); SayWhole(nameof(ClothWeave.WanderPurpose), ClothWeave.WanderPurpose); SayWhole(nameof(ClothWeave.YarnPurpose), ClothWeave.YarnPurpose); SayWhole(nameof(ClothWeave.KnotPurpose), ClothWeave.KnotPurpose);

        // Thread.
        Say(Strand.SinkSoon); Say(Strand.Apart); Say(Strand.Together); Say(Strand.Swells); Say(Strand.Loose); Say(Strand.LooseOften); Say(Strand.LooseBegin);
        Say(Strand.Roundness); Say(Strand.FlatRound); Say(Strand.LeastRise); Say(Strand.Ridge); Say(Strand.Slants); Say(Strand.TurnSeen); Say(Strand.TurnWhole); Say(Strand.FibreSeen); Say(Strand.FibreWhole);
        Say(Strand.AslantAll); Say(Strand.AslantPly); Say(Strand.AslantAcross); Say(Strand.PlyShade); Say(Strand.MiddleShade); Say(Strand.EdgeShade);
        Say(Strand.Coarse); Say(Strand.CoarseAcross); Say(Strand.CoarseAlong); Say(Strand.CoarseBegin); Say(Strand.CoarseAcross2); Say(Strand.CoarseAlong2);
        Say(Strand.Middle); Say(Strand.MiddleAcross); Say(Strand.MiddleAlong); Say(Strand.MiddleBegin); Say(Strand.MiddleOften); Say(Strand.MiddleBegin2); Say(Strand.Fine); Say(Strand.FineAcross); Say(Strand.FineAlong);

        // The piece.
        Add("Pitch", (float)field.Pitch);
        Add("Line", (float)field.LineHeight);
        Add("Depth", Strands.ValleyDepth(field.Pitch));
        Add("Reach", Relief.ShadowReach(field));
        Add("Margin", Relief.Reach(field));
        Add("PerSpace", 2 * piece.Work.Pleating.Gauge.CableRowsPerSpace);
        Add("Finest", Painter.Finest(piece));
        Say(Painter.LeastSamples); Say(Painter.MergeBelow);
        Say(field.Top);
        Add("NodeLines", 2 * field.RowsApart);
        return text.ToString();

        void Add(string name, float value) => text.Append(CultureInfo.InvariantCulture, $"const float {name} = {Real(value)};\n");

        void Say(float value, [CallerArgumentExpression(nameof(value))] string of = "") => Add(Name(of), value);

        void SayWhole(string name, int value) => text.Append(CultureInfo.InvariantCulture, $"const int {name} = {value};\n");

        void SayWay(Vector3 value, [CallerArgumentExpression(nameof(value))] string of = "") =>
            text.Append(CultureInfo.InvariantCulture, $"const vec3 {Name(of)} = vec3({Real(value.X)}, {Real(value.Y)}, {Real(value.Z)});\n");
    }

    private static string Name(string of) => of[(of.LastIndexOf('.') + 1)..];

    private static string Real(float value) => value.ToString("0.0######", CultureInfo.InvariantCulture);
}
