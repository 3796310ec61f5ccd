namespace Pleatwright.Tests.Endurance;

/// <summary>How long the tests of endurance go on: a taste in every run, the whole when PLEATWRIGHT_ENDURANCE is set.</summary>
internal static class Long
{
    private static readonly bool Whole = Environment.GetEnvironmentVariable("PLEATWRIGHT_ENDURANCE") is { Length: > 0 };

    public static int Of(int taste, int whole) => Whole ? whole : taste;
}
