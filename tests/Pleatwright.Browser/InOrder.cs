using System.Globalization;
using Xunit.Sdk;
using Xunit.v3;

[assembly: TestCaseOrderer(typeof(Pleatwright.Browser.Tests.InOrder))]
[assembly: TestCollectionOrderer(typeof(Pleatwright.Browser.Tests.LongestFirst))]

namespace Pleatwright.Browser.Tests;

/// <summary>
/// Tests of a class run in the order of their names on every machine, for several share a bench and must not lean on what another left there;
/// PLEATWRIGHT_SHUFFLE names a seed of another order, to see whether one does.
/// </summary>
public sealed class InOrder : ITestCaseOrderer
{
    /// <inheritdoc/>
    public IReadOnlyCollection<TTestCase> OrderTestCases<TTestCase>(IReadOnlyCollection<TTestCase> testCases) where TTestCase : notnull, ITestCase
    {
        TTestCase[] cases = [.. testCases.OrderBy(c => c.TestCaseDisplayName, StringComparer.Ordinal)];
        if (int.TryParse(Environment.GetEnvironmentVariable("PLEATWRIGHT_SHUFFLE"), NumberStyles.Integer, CultureInfo.InvariantCulture, out var seed)) new Random(seed).Shuffle(cases);
        return cases;
    }
}

/// <summary>Classes that take long begin first, so that at the end none runs on alone with a processor idle beside it.</summary>
public sealed class LongestFirst : ITestCollectionOrderer
{
    private static readonly string[] Long =
        [nameof(TableTests), nameof(StashViewTests), nameof(ScreenTests), nameof(ShelfViewTests), nameof(SteadyClothTests), nameof(KeepingTests), nameof(StitchViewTests), nameof(TraceViewTests), nameof(OrderTests), nameof(ClothTests)];

    /// <inheritdoc/>
    public IReadOnlyCollection<TTestCollection> OrderTestCollections<TTestCollection>(IReadOnlyCollection<TTestCollection> testCollections) where TTestCollection : ITestCollection =>
        [.. testCollections.OrderBy(c => Array.FindIndex(Long, name => c.TestCollectionDisplayName.Contains("." + name + " ", StringComparison.Ordinal)) is >= 0 and var place ? place : Long.Length)
            .ThenBy(c => c.TestCollectionDisplayName, StringComparer.Ordinal)];
}
