using System.Collections.Immutable;
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

    private const int MostSittings = 1000;

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
            var format = keys.Required("stash");
            if (format is LocatedNumber { IsWhole: true } n && n.Value > FormatNumber)
                throw text.Error(format.Offset, FormattableString.Invariant(
                    $"this stash is of format {n.Value}, newer than this program reads ({FormatNumber}); it was left untouched. Use a newer Pleatwright."));
            keys.AsWhole(format, "stash", FormatNumber, FormatNumber);
            var stash = new Stash
            {
                Threads = Many(keys, "threads", Pleatwright.Shopping.Stash.MostOfAKind, Thread),
                Cloths = Many(keys, "cloths", Pleatwright.Shopping.Stash.MostOfAKind, Cloth),
                Rates = keys.Optional("rates") is { } r ? Rates(r) : new Rates(),
                Pace = keys.Optional("pace") is { } p ? Pace(p) : Pleatwright.Shopping.Pace.Unknown,
            };
            keys.NothingElse();
            return stash;
        }

        private ImmutableArray<T> Many<T>(KeyReader keys, string key, int most, Func<Located, T> read)
        {
            var list = keys.List(key);
            if (list.Count > most) throw text.Error(list[most].Offset, $"“{key}” holds more than {most} entries.");
            return [.. list.Select(read)];
        }

        private StashThread Thread(Located value)
        {
            var keys = new KeyReader(text, value, "a thread of the stash");
            var usual = new StashThread("", default, 0);
            var thread = new StashThread(Name(keys), Colour(keys), Number(keys, "skeins", 0, StashThread.MostSkeins))
            {
                SkeinLength = keys.OptionalLength("skein") ?? usual.SkeinLength,
                StrandsInSkein = keys.Whole("strandsInSkein", 1, 24, usual.StrandsInSkein),
                TexPerStrand = keys.Optional("tex") is null ? usual.TexPerStrand : Number(keys, "tex", 1, 1000),
                Note = Note(keys),
            };
            keys.NothingElse();
            return thread;
        }

        private StashCloth Cloth(Located value)
        {
            var keys = new KeyReader(text, value, "a cloth of the stash");
            var cloth = new StashCloth(Name(keys), Colour(keys), keys.Length("width"), keys.Length("left", allowZero: true)) { Note = Note(keys) };
            keys.NothingElse();
            return cloth;
        }

        private Rates Rates(Located value)
        {
            var keys = new KeyReader(text, value, "the rates");
            var rates = new Rates
            {
                Money = Short(keys, "money", keys.OptionalString("money") ?? "", Pleatwright.Shopping.Rates.LongestMoney),
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
                Sittings = Many(keys, "sittings", MostSittings, Sitting),
                Said = Pair(keys, "cablesAnHour", 1, Pleatwright.Shopping.Pace.MostCables),
                Besides = Pair(keys, "hoursBesides", 0, 1000) is { } b ? new Between((decimal)b.Low, (decimal)b.High) : default,
            };
            keys.NothingElse();
            return pace;
        }

        private Sitting Sitting(Located value)
        {
            var keys = new KeyReader(text, value, "a sitting");
            var sitting = new Sitting(keys.Whole("cables", 1, Pleatwright.Shopping.Pace.MostCables), Number(keys, "minutes", 0.01, 100_000));
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
            keys.Optional(key) is null ? null : (decimal)Number(keys, key, 0, (double)Pleatwright.Shopping.Rates.Most);

        private static double Number(KeyReader keys, string key, double from, double to) => keys.Required(key) switch
        {
            LocatedNumber n when n.Value >= from && n.Value <= to => n.Value,
            var other => throw keys.Wrong(other, key, FormattableString.Invariant($"a number from {from} to {to}")),
        };

        private string Name(KeyReader keys)
        {
            var name = Short(keys, "name", keys.String("name"), Pleatwright.Shopping.Stash.LongestName);
            return name.Trim().Length > 0 ? name : throw keys.Wrong(keys.Required("name"), "name", "the name you call it by");
        }

        private string Note(KeyReader keys) => Short(keys, "note", keys.OptionalString("note") ?? "", Pleatwright.Shopping.Stash.LongestNote);

        private string Short(KeyReader keys, string key, string found, int longest) => found.Length <= longest
            ? found
            : throw text.Error(keys.Required(key).Offset, $"“{key}” is longer than {longest} characters.");

        private static Colour Colour(KeyReader keys) => keys.Required("colour") is var value && value is LocatedString s && Pleatwright.Thread.Colour.TryParse(s.Value, out var colour)
            ? colour
            : throw keys.Wrong(value, "colour", "a colour such as \"#b3202c\"");
    }
}
