using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Pleatwright.Perf;

/// <summary>What it was measured on, and how long a piece of work takes there.</summary>
internal static class Machine
{
    public static string Describe()
    {
        const string cpuInfo = "/proc/cpuinfo";
        var model = File.Exists(cpuInfo) ? File.ReadLines(cpuInfo).FirstOrDefault(l => l.StartsWith("model name"))?.Split(':')[1].Trim() : null;
        return $"{model ?? RuntimeInformation.ProcessArchitecture.ToString()}, {Environment.ProcessorCount} cores, {RuntimeInformation.OSDescription}, {RuntimeInformation.FrameworkDescription}";
    }

    /// <summary>Milliseconds of the median of so many goes, after as many to warm up.</summary>
    public static double Median(Action work, int goes = 21) => Median(() => 0, _ => work(), goes);

    /// <summary>The same, with something made anew before each go and left out of the time.</summary>
    public static double Median<T>(Func<T> make, Action<T> work, int goes = 21)
    {
        var times = new double[goes];
        for (var i = -goes; i < goes; i++)
        {
            var made = make();
            GC.Collect(); // what was thrown away before is not charged to this go
            var watch = Stopwatch.StartNew();
            work(made);
            if (i >= 0) times[i] = watch.Elapsed.TotalMilliseconds;
        }
        Array.Sort(times);
        return times[goes / 2];
    }
}
