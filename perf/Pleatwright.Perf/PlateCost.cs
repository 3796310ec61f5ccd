using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;

namespace Pleatwright.Perf;

/// <summary>What a change of a plate's options costs before its pages are seen: the plate, its pages, the first page drawn, and all of them.</summary>
internal static class PlateCost
{
    public static void Measure()
    {
        Console.WriteLine("piece                edition     pages   order ms   pages ms   pages/order   drawn ms   svg kB");
        foreach (var file in Directory.GetFiles("examples", "*.piece.json").Order(StringComparer.Ordinal))
        {
            var work = Work.Lay(PieceReader.Read(File.ReadAllText(file)));
            var findings = Proofreading.Read(work);
            var order = Planner.Plan(work);
            var planning = Machine.Median(() => { Planner.Plan(work); });
            foreach (var (name, options) in (ReadOnlySpan<(string, PlateOptions)>)[("plate", new()), ("large", new() { LargePrint = true }), ("learner's", new() { Edition = Edition.Learner })])
            {
                var sheets = PlateMaker.Make(work, order, findings, options).Sheets;
                var laying = Machine.Median(() => { _ = PlateMaker.Make(work, order, findings, options).Sheets; });
                var size = 0;
                var drawing = Machine.Median(() => size = sheets.Sum(s => SvgWriter.Write(s.Name, [s]).Length));
                Console.WriteLine($"{Path.GetFileName(file).Replace(".piece.json", "", StringComparison.Ordinal),-20} {name,-10} {sheets.Length,6} {planning,10:0.0} {laying,10:0.0} {laying / planning,13:0.0} {drawing,10:0.0} {size / 1000,8}");
            }
        }
    }
}
