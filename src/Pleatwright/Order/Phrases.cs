using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Turns of phrase the directions share.</summary>
internal static class Phrases
{
    /// <summary>"up", or "left" for work held sideways.</summary>
    public static string Level(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "up",
        (Chart.Level.Down, LevelWords.UpDown) => "down",
        (Chart.Level.Up, _) => "left",
        _ => "right",
    };

    /// <summary>"the thread above the needle".</summary>
    public static string Thread(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "the thread above the needle",
        (Chart.Level.Down, LevelWords.UpDown) => "the thread below the needle",
        (Chart.Level.Up, _) => "the thread left of the needle",
        _ => "the thread right of the needle",
    };
}
