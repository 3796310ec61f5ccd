using Pleatwright.Bench.Model.Table;

namespace Pleatwright.Bench.Model.Working;

/// <summary>Where the maker stands in the order, and in which words it is told. It outlives the view.</summary>
public sealed class Stand
{
    private readonly Desk desk;

    public Stand(Desk desk)
    {
        this.desk = desk;
        desk.Opened += () => Step = 0;
    }

    /// <summary>The step at hand, from 1; 0 before the first.</summary>
    public int Step { get; private set; }

    public Order.LevelWords Words { get; set; }

    public Look Look { get; set; }

    /// <summary>Goes to a step, or to the nearest there is.</summary>
    public void GoTo(int step) => Step = Math.Clamp(step, 0, desk.Order.Steps.Length);
}
