using System.Diagnostics;
using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>The stitch in motion: at the bench, and as the files that the command writes, opened by a browser's own decoders.</summary>
public sealed class ShowViewTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    private static ILocator Button(IPage page, string name) => page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    [Fact]
    public async Task A_step_is_played_from_the_chair_slowed_looped_shown_large_and_saved_as_a_film()
    {
        await using var bench = await warm.ExampleAsync();
        var page = bench.Page;
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.NoPreference }); // all other tests ask for little motion
        await bench.SeeAsync("stitch");
        await page.Locator("#tick").WaitForAsync();
        await page.Locator(".chair-more summary").ClickAsync();
        await Button(page, "Show it in motion").ClickAsync();
        var caption = page.Locator("#show-caption");
        await Assertions.Expect(caption).ToHaveTextAsync("Secure the thread on the back with two small stitches through the first pleat, never in a valley: the first of them.");
        Assert.Equal("polite", await caption.GetAttributeAsync("aria-live"));
        await page.Locator("#show-cloth[data-frames]").WaitForAsync();
        await bench.FitsTheScreenAsync();
        await bench.NoSeriousFaultAsync();

        // A move by itself, by key: on, back, and played to its end, a caption a move.
        await page.Locator(".show select").SelectOptionAsync("up cable");
        await Assertions.Expect(caption).ToHaveTextAsync("An up cable. Needle through the next pleat, from right to left, with the thread above the needle.");
        var number = page.Locator(".show-number b");
        await Assertions.Expect(number).ToHaveTextAsync("1 of 2");
        await page.Locator("#main").FocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(number).ToHaveTextAsync("2 of 2");
        await page.Keyboard.PressAsync("ArrowLeft");
        await Assertions.Expect(number).ToHaveTextAsync("1 of 2");
        var before = await FramesAsync(page);
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(number).ToHaveTextAsync("2 of 2");
        await Assertions.Expect(Button(page, "Play")).ToBeVisibleAsync(); // it stops by itself
        Assert.InRange(await FramesAsync(page) - before, 10, 1000);

        await Button(page, "Sideways").Or(page.GetByRole(AriaRole.Radio, new() { Name = "Sideways" })).First.ClickAsync();
        await Assertions.Expect(caption).ToHaveTextAsync("A left cable. Needle through the next pleat, toward you, with the thread left of the needle.");
        await Button(page, "For a class: large").ClickAsync();
        await page.Locator(".show[data-presenting]").WaitForAsync();
        Assert.True(await page.Locator("#show-caption").EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)") >= 36);
        await page.Keyboard.PressAsync("p");
        await page.Locator(".show:not([data-presenting])").WaitForAsync();

        // Where the system asks for less motion nothing moves: stills, one after the other.
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await Button(page, "Next still").ClickAsync();
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.NoPreference });
        await Button(page, "Play").WaitForAsync();

        // The film is opened by the browser's own decoder, frame after frame.
        var taken = await page.RunAndWaitForDownloadAsync(() => Button(page, "Save as a film").ClickAsync());
        Assert.Matches(@"^up-cable\.(webm|mp4)$", taken.SuggestedFilename);
        var film = Convert.ToBase64String(await File.ReadAllBytesAsync(await taken.PathAsync()));
        var reel = await bench.Context.NewPageAsync(); // the bench's own page takes no film from anywhere
        var played = await reel.EvaluateAsync<int[]>("""
            async (film) => {
              const video = document.createElement("video");
              video.muted = true;
              const bytes = Uint8Array.from(atob(film), c => c.charCodeAt(0));
              video.src = URL.createObjectURL(new Blob([bytes]));
              let frames = 0;
              const count = () => { frames++; video.requestVideoFrameCallback(count); };
              video.requestVideoFrameCallback(count);
              await video.play();
              await new Promise(done => { video.onended = done; });
              return [frames, video.videoWidth, video.videoHeight, Math.round(video.currentTime * 10)];
            }
            """, film);
        await reel.CloseAsync();
        Assert.Equal((1280, 720), (played[1], played[2]));
        Assert.InRange(played[0], 10, 400);
        Assert.InRange(played[3], 30, 200); // tenths of a second; a busy machine records late
        // and one that is stopped leaves nothing
        await Button(page, "Save as a film").ClickAsync();
        await Button(page, "Stop recording").ClickAsync();
        await Button(page, "Save as a film").WaitForAsync();
    }

    [Fact]
    public async Task What_the_command_writes_is_whole_for_a_browser_and_the_page_plays_offline()
    {
        var folder = Directory.CreateTempSubdirectory("show");
        try
        {
            foreach (var ending in (string[])["png", "webp", "html"])
            {
                using var ran = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "pleatwright.dll"), "show", "--move", "first cable", "-o", Path.Combine(folder.FullName, $"first.{ending}"), .. ending == "html" ? Array.Empty<string>() : ["--frames", "5", "--width", "240"]]))!;
                await ran.WaitForExitAsync(TestContext.Current.CancellationToken);
                Assert.Equal(0, ran.ExitCode);
            }
            await using var context = await chromium.ContextAsync(new() { Offline = true, ViewportSize = Screens.Phone });
            var page = await context.NewPageAsync();
            var complaints = new List<string>();
            page.Console += (_, m) => { if (m.Type is "error" or "warning") complaints.Add(m.Text); };
            page.PageError += (_, e) => complaints.Add(e);
            await page.GotoAsync(new Uri(Path.Combine(folder.FullName, "first.html")).ToString()); // a browser decodes only where a page may be trusted
            foreach (var ending in (string[])["png", "webp"])
            {
                var data = Convert.ToBase64String(await File.ReadAllBytesAsync(Path.Combine(folder.FullName, $"first.{ending}"), TestContext.Current.CancellationToken));
                var told = await page.EvaluateAsync<int[]>("""
                    async ([data, type]) => {
                      const decoder = new ImageDecoder({ data: Uint8Array.from(atob(data), c => c.charCodeAt(0)), type });
                      await decoder.tracks.ready;
                      await decoder.completed;
                      const { frameCount } = decoder.tracks.selectedTrack, seen = new Set();
                      let lasts = 0;
                      for (let i = 0; i < frameCount; i++) {
                        const { image } = await decoder.decode({ frameIndex: i }), bytes = new Uint8Array(image.allocationSize());
                        await image.copyTo(bytes);
                        lasts += image.duration / 1000;
                        let mark = 0;
                        for (let k = 0; k < bytes.length; k += 37) mark = (mark * 31 + bytes[k]) | 0;
                        seen.add(mark);
                        if (image.displayWidth !== 240) return [-1, 0, 0];
                      }
                      return [frameCount, Math.round(lasts), seen.size];
                    }
                    """, new[] { data, $"image/{ending}" });
                // Come up, begin and the cable: 2 + 2.4 + 2.4 s at five frames a second.
                Assert.Equal((34, 6800), (told[0], told[1]));
                Assert.InRange(told[2], 20, 34); // they move
            }
            var caption = page.Locator("#caption");
            await Assertions.Expect(caption).ToHaveTextAsync("Bring the needle to the front in the valley between the first two pleats.");
            await page.Locator("#play").ClickAsync();
            await Assertions.Expect(page.Locator("#number")).ToHaveTextAsync("3 of 3");
            await Assertions.Expect(page.Locator("#play")).ToHaveTextAsync("Play");
            await page.Locator("#back").ClickAsync();
            await Assertions.Expect(page.Locator("#number")).ToHaveTextAsync("2 of 3");
            await Axe.NoSeriousFaultAsync(page);
            Assert.True(await page.EvaluateAsync<bool>("[...document.querySelectorAll('button')].every(b => b.getBoundingClientRect().height >= 44 && b.getBoundingClientRect().width >= 44) && document.documentElement.scrollWidth <= innerWidth"));
            Assert.Empty(complaints);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Task<int> FramesAsync(IPage page) => page.EvaluateAsync<int>("+document.getElementById('show-cloth').dataset.frames");
}
