using System.Globalization;
using Xunit.Sdk;
using Xunit.v3;

[assembly: TestCaseOrderer(typeof(Pleatwright.Browser.Tests.InOrder))]

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
