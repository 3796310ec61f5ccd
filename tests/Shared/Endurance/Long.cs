namespace Pleatwright.Tests.Endurance;

/// <summary>How long the tests of endurance go on: a taste in every run, the whole when PLEATWRIGHT_ENDURANCE is set.</summary>
internal static class Long
{
    /// <summary>Whether all of it is asked for.</summary>
    public static bool IsWhole { get; } = Environment.GetEnvironmentVariable("PLEATWRIGHT_ENDURANCE") is { Length: > 0 };

    public static int Of(int taste, int whole) => IsWhole ? whole : taste;
}
