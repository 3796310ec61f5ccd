using Pleatwright.Perf;

// One file a measurement; add yours to this list.
var measurements = new Dictionary<string, Action>
{
    ["bands"] = BandCost.Measure,
    ["order"] = () => Ordering.Measure(args.Length > 1 ? int.Parse(args[1], System.Globalization.CultureInfo.InvariantCulture) : int.MaxValue, args.Length > 2 ? args[2] : ""),
    ["plates"] = PlateCost.Measure,
    ["proof"] = ProofCost.Measure,
    ["stitched"] = StitchedCost.Measure,
    ["trace"] = TraceCost.Measure,
};
if (args is not [var name, ..] || !measurements.TryGetValue(name, out var measure))
{
    Console.Error.WriteLine($"Name one measurement: {string.Join(", ", measurements.Keys)}.");
    return 2;
}
Console.WriteLine(Machine.Describe());
measure();
return 0;
