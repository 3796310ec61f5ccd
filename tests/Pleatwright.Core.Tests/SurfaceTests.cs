using PublicApiGenerator;

namespace Pleatwright.Tests;

/// <summary>
/// What others may rely on. A change of it is seen in review, as a change of Snapshots/Surface.txt; whatever is taken away or renamed there breaks
/// somebody's program.
/// </summary>
public class SurfaceTests
{
    [Fact]
    public void The_public_surface_is_as_it_was_agreed() => Snapshot.Check("", "Surface.txt",
        typeof(Smocking).Assembly.GeneratePublicApi(new ApiGeneratorOptions { IncludeAssemblyAttributes = false }).ReplaceLineEndings("\n") + "\n");
}
