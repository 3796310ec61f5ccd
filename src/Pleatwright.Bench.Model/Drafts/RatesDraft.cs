using System.Globalization;
using Pleatwright.Measure;
using Pleatwright.Shopping;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What things and hours cost, and how fast the maker stitches. A field left empty is not reckoned.</summary>
public sealed class RatesDraft
{
    private readonly Unread unread = new();
    private readonly List<Sitting> sittings;

    /// <summary>What the stash says of them, to be changed.</summary>
    public RatesDraft(Stash stash)
    {
        (Money, Skein, Cloth, Hour, ClothPer) = (stash.Rates.Money, stash.Rates.Skein, stash.Rates.Cloth, stash.Rates.Hour, stash.Rates.ClothPer);
        sittings = [.. stash.Pace.Sittings];
        (Slow, Quick) = (stash.Pace.Said?.Slow, stash.Pace.Said?.Quick);
        if (stash.Pace.Besides != default) (Least, Most) = (stash.Pace.Besides.Low, stash.Pace.Besides.High);
    }

    public string Money { get; set; }

    public decimal? Skein { get; private set; }

    public decimal? Cloth { get; private set; }

    /// <summary>The length of cloth that <see cref="Cloth"/> is asked for.</summary>
    public Length ClothPer { get; set; }

    public decimal? Hour { get; private set; }

    /// <summary>Sittings timed.</summary>
    public IReadOnlyList<Sitting> Sittings => sittings;

    /// <summary>Whether there may be one more.</summary>
    public bool MayAdd => sittings.Count < Shopping.Pace.MostSittings;

    /// <summary>Cables of a sitting about to be added.</summary>
    public int? Cables { get; private set; }

    /// <summary>Minutes of a sitting about to be added.</summary>
    public double? Minutes { get; private set; }

    /// <summary>Cables an hour as the maker says, slow.</summary>
    public double? Slow { get; private set; }

    /// <summary>Cables an hour as the maker says, quick.</summary>
    public double? Quick { get; private set; }

    /// <summary>Hours besides, least.</summary>
    public decimal? Least { get; private set; }

    /// <summary>Hours besides, most.</summary>
    public decimal? Most { get; private set; }

    /// <summary>Why the last act was not done, as a sentence; empty when it was.</summary>
    public string Told { get; private set; } = "";

    /// <summary>What the sittings come to so far, in a sentence; null when they come to nothing.</summary>
    public string? Comes => Numbers.Length > 0 ? null : ShoppingWords.Of(Pace);

    public void SetSkein(string? text) => Skein = Amount("A skein", text, Skein);

    public void SetCloth(string? text) => Cloth = Amount("Cloth", text, Cloth);

    public void SetHour(string? text) => Hour = Amount("An hour of yours", text, Hour);

    public void SetCables(string? text)
    {
        if (unread.MaybeWhole("Cables", text, out var n)) Cables = n;
    }

    public void SetMinutes(string? text)
    {
        if (unread.MaybeNumber("Minutes", text, out var n)) Minutes = n;
    }

    public void SetSlow(string? text)
    {
        if (unread.MaybeNumber("Or say it: cables an hour, slow", text, out var n)) Slow = n;
    }

    public void SetQuick(string? text)
    {
        if (unread.MaybeNumber("quick", text, out var n)) Quick = n;
    }

    public void SetLeast(string? text) => Least = Amount("Hours besides for a piece, least", text, Least);

    public void SetMost(string? text) => Most = Amount("most", text, Most);

    /// <summary>Adds the sitting that was written down.</summary>
    public bool AddSitting()
    {
        Told = unread.Fault ?? (!MayAdd ? $"{Words.Of(Shopping.Pace.MostSittings, "sitting")} are enough; take one away first."
            : Cables is >= 1 and <= Shopping.Pace.MostCables && Minutes is >= Shopping.Pace.LeastMinutes and <= Shopping.Pace.MostMinutes ? ""
            : "A sitting is at least one cable, and takes some minutes.");
        if (Told.Length > 0) return false;
        sittings.Add(new Sitting(Cables!.Value, Minutes!.Value));
        (Cables, Minutes) = (null, null);
        return true;
    }

    public void RemoveSitting(int at) => sittings.RemoveAt(at);

    /// <summary>What is to be kept, a sitting written down with it; null when it cannot be, and <see cref="Told"/> says why.</summary>
    public (Rates Rates, Pace Pace)? Make()
    {
        if ((Cables is not null || Minutes is not null) && !AddSitting()) return null;
        Told = unread.Fault ?? (Money.Trim().Length > Rates.LongestMoney ? $"Your word for money has at most {Rates.LongestMoney} characters." : Numbers);
        return Told.Length > 0 ? null : (new Rates { Money = Money.Trim(), Skein = Skein, Cloth = Cloth, ClothPer = ClothPer, Hour = Hour }, Pace);
    }

    private string Numbers =>
        new[] { Skein, Cloth, Hour }.Any(p => p is < 0 or > Rates.Most) ? $"A price is 0 to {Rates.Most.ToString("N0", CultureInfo.InvariantCulture)}."
        : ClothPer <= Length.Zero ? "Cloth is asked for by some length, as “1 m”."
        : Slow is < 1 or > Shopping.Pace.MostCables || Quick is < 1 or > Shopping.Pace.MostCables || Slow > Quick ? "Say the slower pace first; a pace is at least one cable an hour."
        : Least is < 0 or > Shopping.Pace.MostHoursBesides || Most is < 0 or > Shopping.Pace.MostHoursBesides || Least > Most ? $"Say the fewer hours first, from 0 to {Words.Of(Shopping.Pace.MostHoursBesides)}."
        : "";

    // Timed sittings rule; what is said serves until there are some.
    private Pace Pace => new()
    {
        Sittings = [.. sittings],
        Said = Slow is { } s ? (s, Quick ?? s) : Quick is { } q ? (q, q) : null,
        Besides = new Between(Least ?? 0, Math.Max(Least ?? 0, Most ?? 0)),
    };

    private decimal? Amount(string field, string? text, decimal? before)
    {
        if (!unread.MaybeNumber(field, text, out var n)) return before;
        return n is { } number ? (decimal)Math.Clamp(number, -1e12, 1e12) : null;
    }
}
