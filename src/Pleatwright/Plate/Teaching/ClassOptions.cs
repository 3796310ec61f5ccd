namespace Pleatwright.Plate.Teaching;

/// <summary>Who a class pack is for.</summary>
/// <param name="Students">Students, 1 to <see cref="MostStudents"/>.</param>
public sealed record ClassOptions(int Students)
{
    /// <summary>The most students a pack is made for.</summary>
    public const int MostStudents = 200;

    /// <summary>The most spare kits.</summary>
    public const int MostSpareKits = 50;

    /// <summary>The most lengths of each floss a kit holds beyond those worked.</summary>
    public const int MostExtraLengths = 20;

    /// <summary>The most sessions the work is shared over.</summary>
    public const int MostSessions = 60;

    /// <summary>Kits beyond one for each student, 0 to <see cref="MostSpareKits"/>. Default none.</summary>
    public int SpareKits { get; init; }

    /// <summary>Lengths of each floss in every kit beyond those worked, 0 to <see cref="MostExtraLengths"/>. Default none.</summary>
    public int ExtraLengths { get; init; }

    /// <summary>Sessions over which the work is shared, 1 to <see cref="MostSessions"/>; null for no plan of sessions.</summary>
    public int? Sessions { get; init; }

    /// <summary>What is wrong with the numbers, in one sentence, or null.</summary>
    public string? Fault =>
        Out(Students, 1, MostStudents) ? $"A class has 1 to {MostStudents} students, not {Students}."
        : Out(SpareKits, 0, MostSpareKits) ? $"A class has 0 to {MostSpareKits} spare kits, not {SpareKits}."
        : Out(ExtraLengths, 0, MostExtraLengths) ? $"A kit holds 0 to {MostExtraLengths} extra lengths of a thread, not {ExtraLengths}."
        : Sessions is { } sessions && Out(sessions, 1, MostSessions) ? $"A class meets for 1 to {MostSessions} sessions, not {sessions}."
        : null;

    private static bool Out(int number, int least, int most) => number < least || number > most;
}
