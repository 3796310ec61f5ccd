using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Printing;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;

namespace Pleatwright.Tests.Printing;

/// <summary>The print as it is laid out beside the page: whatever is done and whatever answers when, what is shown is what was asked for last, or nothing.</summary>
public class PressLaws
{
    // A worker whose answers come in any order, those of what was stopped among them.
    private sealed class Room : IPressRoom
    {
        public sealed class Job(string kind, string ask, Action<PrintedPage>? told, CancellationToken cancel)
        {
            public readonly TaskCompletionSource<string> Answer = new();

            public int Pages = 1 + ask.Length % 3, Told;

            public string Kind => kind;

            public string Ask => ask;

            public CancellationToken Cancel => cancel;

            public Action<PrintedPage>? Page => told;
        }

        private int addresses;

        public List<Job> Jobs { get; } = [];

        public Dictionary<string, string> Alive { get; } = []; // address, and what was asked for

        public int Saved { get; private set; }

        public bool May { get; set; }

        public IEnumerable<Job> Wanted => Jobs.Where(j => !j.Cancel.IsCancellationRequested);

        public async Task<(ImmutableArray<LackingPicture> Lacking, string Fault)> MakeAsync(string ask, Action<PrintedPage> told, CancellationToken cancel)
        {
            var fault = await Do(new Job("make", ask, told, cancel));
            LackingPicture picture = new("", [], 9);
            return (fault.Length > 0 ? [] : [picture, picture], fault);
        }

        public async Task<byte[]?> PaintAsync(LackingPicture picture, CancellationToken cancel) => (await Do(new Job("paint", "", null, cancel))).Length > 0 ? null : [1];

        public async Task GiveAsync(int picture, byte[] jpeg, Action<PrintedPage> told, CancellationToken cancel) => await Do(new Job("give", "", told, cancel) { Pages = 1 });

        public async Task<(string Address, string Fault)> WriteAsync(string ending, string mediaType, CancellationToken cancel) =>
            await Do(new Job("write", "", null, cancel)) is { Length: > 0 } fault ? ("", fault) : (New("file"), "");

        public void LetGo(string address) => Assert.True(Alive.Remove(address), address);

        public void Save(string address, string name)
        {
            Saved++;
            LetGo(address);
        }

        public bool MaySave() => May;

        public void Tell(Job job)
        {
            if (job.Page is null || job.Told >= job.Pages) return;
            job.Told++;
            job.Page(new PrintedPage(job.Told, job.Pages, "a page", 210, 297, New(job.Ask)));
        }

        public void Finish(Job job, string fault)
        {
            if (fault.Length == 0)
                while (job.Page is not null && job.Told < job.Pages) Tell(job);
            Jobs.Remove(job);
            if (fault == "stopped") job.Answer.SetException(new OperationCanceledException());
            else job.Answer.SetResult(fault);
        }

        private string New(string of)
        {
            var address = $"blob:{++addresses}";
            Alive[address] = of;
            return address;
        }

        private Task<string> Do(Job job)
        {
            Jobs.Add(job);
            Assert.True(Wanted.Count(j => j.Kind != "paint") <= 1, "the worker has one job at a time");
            Assert.True(Wanted.Count(j => j.Kind == "paint") <= 1);
            return job.Answer.Task;
        }
    }

    private sealed class Bench
    {
        public readonly OneThread Thread = new();
        public readonly Room Room = new();
        public readonly Desk Desk;
        public readonly PrintChoice Choice;
        public readonly Press Press;
        private int edits;

        public Bench()
        {
            Desk = new Desk(Thread.Time);
            Choice = new PrintChoice(Desk);
            Press = new Press(Desk, Choice, Room, Thread.Time);
            Desk.Changed += () => Press.Begin();
            Thread.Do(() => Press.Begin());
        }

        public string Asked => Thread.Do(() => PrintAsk.OfAsync(Desk, Choice)).Ask!.Write();

        public void Act(int act, int which, bool flag) => Thread.Do(() =>
        {
            Room.Job? job = Room.Jobs.Count == 0 ? null : Room.Jobs[which % Room.Jobs.Count];
            switch (act)
            {
                case 0:
                    Choice.Options = Choice.Options with { LargePrint = !Choice.Options.LargePrint };
                    Press.Begin(TimeSpan.FromMilliseconds(flag ? 400 : 30));
                    break;
                case 1: Desk.Edit("a title", p => p with { Title = $"Boat {++edits}" }); break;
                case 2:
                    var was = Press.CanStop;
                    Assert.Equal(was, Press.Stop());
                    Assert.False(Press.CanStop);
                    Assert.DoesNotContain(Room.Wanted, j => j.Kind is "make" or "write");
                    if (Press.WasStopped) Assert.Empty(Press.Pages);
                    break;
                case 3: Press.Take(PrintFormat.Of(Choice.Sheet, Choice.ForClass).First()); break;
                case 4 when job is not null: Room.Tell(job); break;
                case 5 when job is not null: Room.Finish(job, ""); break;
                case 6 when job is not null && job.Cancel.IsCancellationRequested: Room.Finish(job, "stopped"); break;
                case 7 when job is not null: Room.Finish(job, "It could not be."); break;
                case 8: Room.May = flag; break;
                case 9: Press.HandOver(); break;
                case 10: // the view is left and come back to
                    Press.Leave();
                    Assert.Empty(Press.Pages);
                    Assert.Empty(Room.Alive);
                    Assert.Empty(Room.Wanted);
                    Press.Begin();
                    break;
                case 11:
                    Choice.Sheet = flag ? PreparationKind.Card : null;
                    Press.Begin();
                    break;
                default: break;
            }
        });

        public void Holds()
        {
            var shown = Press.Pages.Select(p => p.Address).ToArray();
            // nothing is left behind: what has an address is shown, or waits to be handed over
            Assert.Equal(shown.Order(), Room.Alive.Where(a => a.Value != "file").Select(a => a.Key).Order());
            Assert.Equal(Press.Waiting is null ? 0 : 1, Room.Alive.Count(a => a.Value == "file"));
            // pages given anew after painting are of the same print
            var asks = shown.Select(a => Room.Alive[a]).Where(a => a.Length > 0).Distinct().ToArray();
            Assert.True(asks.Length <= 1, "pages of two prints are never shown together");
            if (Press.IsLaying || Press.WasStopped || Press.Trouble.Length > 0) return;
            Assert.Equal(Press.Of, shown.Length);
            Assert.True(asks.Length == 0 || asks[0] == Asked, "what is shown is what is chosen");
        }
    }

    [Fact]
    public void Whatever_is_done_and_whatever_answers_when_what_is_shown_is_what_was_asked_for_last() =>
        Gen.Select(Gen.Int[0, 16], Gen.Int[0, 5], Gen.Bool).Array[1, 40].Sample(acts =>
        {
            var bench = new Bench();
            foreach (var (act, which, flag) in acts)
            {
                if (act >= 15) Drain(bench, 2 * which); // it comes to rest, or half the way
                else if (act >= 12) bench.Thread.Pass(act == 12 ? 0.03 : 0.5);
                else bench.Act(act, which, flag);
                if (act == 15) bench.Act(3, 0, flag); // what is taken away comes only after all the rest
                bench.Holds();
            }
            // and whatever went before, it is printed in the end and can be taken away
            bench.Room.May = true;
            bench.Thread.Do(() => bench.Press.Begin());
            Drain(bench);
            Assert.Equal("", bench.Press.Trouble);
            Assert.NotEmpty(bench.Press.Pages);
            bench.Holds();
            var saved = bench.Room.Saved;
            bench.Thread.Do(() => bench.Press.Take(PrintFormat.Of(bench.Choice.Sheet, bench.Choice.ForClass).First()));
            Drain(bench);
            Assert.Equal(saved + 1, bench.Room.Saved);
            Assert.False(bench.Press.CanStop);
        }, iter: 200, threads: 1);

    private static void Drain(Bench bench, int jobs = int.MaxValue)
    {
        for (var goes = 0; goes < 10; goes++)
        {
            bench.Thread.Pass(0.5);
            for (; bench.Room.Jobs.Count > 0 && jobs > 0; jobs--) bench.Thread.Do(() => bench.Room.Finish(bench.Room.Jobs[0], ""));
        }
    }

    [Fact]
    public void In_the_page_it_is_printed_the_same()
    {
        var thread = new OneThread();
        var desk = new Desk(thread.Time);
        var ask = thread.Do(() => PrintAsk.OfAsync(desk, new PrintChoice(desk))).Ask!;
        List<(string Type, byte[] Bytes)> kept = [];
        var here = new HerePress(thread.Time, (type, bytes) =>
        {
            kept.Add((type, bytes));
            return $"{kept.Count - 1}";
        });
        List<PrintedPage> pages = [];
        var (_, fault) = thread.Do(() => here.MakeAsync(ask.Write(), pages.Add, default));
        Assert.Equal("", fault);
        var plate = Smocking.Plate(desk.Order, desk.Findings);
        Assert.Equal(plate.Sheets.Select(s => s.Name), pages.Select(p => p.Name));
        Assert.Equal(plate.Sheets.Select(s => Pleatwright.Plate.Writers.SvgWriter.Write(s.Name, [s])), kept.Select(k => System.Text.Encoding.UTF8.GetString(k.Bytes)));
        var (address, _) = thread.Do(() => here.WriteAsync(".txt", "text/plain", default));
        Assert.Equal(Pleatwright.Plate.Writers.PlainTextWriter.Write(plate), System.Text.Encoding.UTF8.GetString(kept[int.Parse(address, System.Globalization.CultureInfo.InvariantCulture)].Bytes));
    }

    [Fact]
    public void What_is_asked_for_is_read_as_it_was_written() =>
        Gen.Select(Gen.Int[0, 2], Gen.Enum<Pleatwright.Measure.UnitSystem>(), Gen.Bool.Array[3], Gen.Int[0, 200].Array[4], Gen.Enum<Edition>()).Sample((paper, units, ticks, numbers, edition) =>
        {
            var options = new PlateOptions { Paper = Paper.All[paper], Units = units, LargePrint = ticks[0], TrueScaleChart = ticks[1], CarriesPiece = ticks[2], Edition = edition };
            var class_ = ticks[0] ? null : new Plate.Teaching.ClassOptions(numbers[0]) { SpareKits = numbers[1], ExtraLengths = numbers[2], Sessions = ticks[1] ? null : numbers[3] };
            var ask = new PrintAsk(Examples.Read(Examples.First), ticks[2] ? null : PreparationKind.Dots, class_, options, "order\n1 2", "other", " larger class");
            var read = PrintAsk.Read(ask.Write());
            Assert.Equal((ask.Sheet, ask.Class, ask.Options, ask.Order, ask.OtherHand, ask.Suffix), (read.Sheet, read.Class, read.Options, read.Order, read.OtherHand, read.Suffix));
            Assert.Equal(Files.PieceWriter.Write(ask.Piece), Files.PieceWriter.Write(read.Piece));
        }, iter: 60, threads: 1);
}
