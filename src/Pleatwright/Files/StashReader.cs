using System.Text;
using Pleatwright.Cloth;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Reads stash files, format number 1.</summary>
public static class StashReader
{
    /// <summary>The format number this program writes, and the newest it reads.</summary>
    public const int FormatNumber = 1;

    /// <summary>The largest file read, in bytes.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>Reads a stash from text.</summary>
    /// <exception cref="PieceFormatException">The text is not a stash; says where and what would serve.</exception>
    public static Stash Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Reads a stash from UTF-8.</summary>
    /// <exception cref="PieceFormatException">The text is not a stash; says where and what would serve.</exception>
    public static Stash Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > MostBytes)
            throw new PieceFormatException(1, 1, $"the file is larger than {MostBytes / 1024 / 1024} MB, which no stash needs.");
        var (text, root) = JsonText.Read(utf8);
        return new Reading(text).Stash(root);
    }

    /// <summary>Whether a text is meant to be a stash: JSON whose first level has the key "stash".</summary>
    public static bool IsStash(ReadOnlySpan<byte> utf8)
    {
        try
        {
            return JsonText.Read(utf8).Root is LocatedObject root && root.Members.Exists(m => m.Name == "stash");
        }
        catch (PieceFormatException)
        {
            return false;
        }
    }

    private sealed class Reading(JsonText text)
    {
        public Stash Stash(Located root)
        {
            var keys = new KeyReader(text, root, "a stash");
            keys.Format("stash", FormatNumber, "stash");
            var stash = new Stash
            {
                Threads = keys.Many("threads", Shopping.Stash.MostOfAKind, Thread),
                Cloths = keys.Many("cloths", Shopping.Stash.MostOfAKind, Cloth),
                Rates = keys.Optional("rates") is { } r ? Rates(r) : new Rates(),
                Pace = keys.Optional("pace") is { } p ? Pace(p) : Shopping.Pace.Unknown,
            };
            keys.NothingElse();
            return stash;
        }

        private StashThread Thread(Located value)
        {
            var keys = new KeyReader(text, value, "a thread of the stash");
            var usual = new StashThread("", default, 0);
            var thread = new StashThread(Name(keys), keys.Colour("colour"), keys.Number("skeins", 0, StashThread.MostSkeins))
            {
                SkeinLength = keys.OptionalLength("skein") ?? usual.SkeinLength,
                StrandsInSkein = keys.Whole("strandsInSkein", 1, Floss.MostStrandsInSkein, usual.StrandsInSkein),
                TexPerStrand = keys.OptionalNumber("tex", Floss.LeastTex, Floss.MostTex) ?? usual.TexPerStrand,
                Note = Note(keys),
            };
            keys.NothingElse();
            return thread;
        }

        private StashCloth Cloth(Located value)
        {
            var keys = new KeyReader(text, value, "a cloth of the stash");
            var cloth = new StashCloth(Name(keys), keys.Colour("colour"), keys.Length("width"), keys.Length("left", allowZero: true)) { Note = Note(keys) };
            keys.NothingElse();
            return cloth;
        }

        private Rates Rates(Located value)
        {
            var keys = new KeyReader(text, value, "the rates");
            var rates = new Rates
            {
                Money = keys.OptionalString("money", Shopping.Rates.LongestMoney) ?? "",
                Skein = Money(keys, "skein"),
                Cloth = Money(keys, "cloth"),
                ClothPer = keys.OptionalLength("clothPer") ?? new Rates().ClothPer,
                Hour = Money(keys, "hour"),
            };
            keys.NothingElse();
            return rates;
        }

        private Pace Pace(Located value)
        {
            var keys = new KeyReader(text, value, "the pace");
            var pace = new Pace
            {
                Sittings = keys.Many("sittings", Shopping.Pace.MostSittings, Sitting),
                Said = Pair(keys, "cablesAnHour", 1, Shopping.Pace.MostCables),
                Besides = Pair(keys, "hoursBesides", 0, Shopping.Pace.MostHoursBesides) is { } b ? new Between((decimal)b.Low, (decimal)b.High) : default,
            };
            keys.NothingElse();
            return pace;
        }

        private Sitting Sitting(Located value)
        {
            var keys = new KeyReader(text, value, "a sitting");
            var sitting = new Sitting(keys.Whole("cables", 1, Shopping.Pace.MostCables), keys.Number("minutes", Shopping.Pace.LeastMinutes, Shopping.Pace.MostMinutes));
            keys.NothingElse();
            return sitting;
        }

        private static (double Low, double High)? Pair(KeyReader keys, string key, double from, double to)
        {
            if (keys.Optional(key) is not { } value) return null;
            return value is LocatedArray { Items: [LocatedNumber low, LocatedNumber high] } && low.Value >= from && low.Value <= high.Value && high.Value <= to
                ? (low.Value, high.Value)
                : throw keys.Wrong(value, key, FormattableString.Invariant($"a list of two numbers from {from} to {to}, the smaller first"));
        }

        private static decimal? Money(KeyReader keys, string key) =>
            (decimal?)keys.OptionalNumber(key, 0, (double)Shopping.Rates.Most);

        private static string Name(KeyReader keys)
        {
            var at = keys.Required("name");
            var name = keys.AsString(at, "name", Shopping.Stash.LongestName);
            return name.Trim().Length > 0 ? name : throw keys.Wrong(at, "name", "the name you call it by");
        }

        private static string Note(KeyReader keys) => keys.OptionalString("note", Shopping.Stash.LongestNote) ?? "";
    }
}
