using System.Net;
using System.Text;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Photos of an entry: taken, shrunk, judged, shown, carried along, and never anything else than a
/// picture.</summary>
public sealed class PhotoTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task<(RunningSite Site, Entry Entry)> SiteAsync()
    {
        var site = await RunningSite.StartAsync();
        var car = await site.Desk.AddCarAsync(
            new Dictionary<string, string>
            {
                ["label"] = "Grey estate",
                ["refrigerant"] = "R-134a",
                ["label-charge"] = "550 g",
            },
            Cancellation
        );
        await site.Desk.OpenJobAsync(car.Value!.Id, "Warm at idle", Cancellation);
        var note = await site.Desk.AddEntryAsync(
            1,
            EntryKinds.Note,
            new Dictionary<string, string> { ["text"] = "oil at the hose" },
            null,
            "Ada",
            cancellation: Cancellation
        );
        return (site, note.Value!);
    }

    /// <summary>A photo as a camera makes one, larger than is kept: noise, so that it does not shrink by itself.</summary>
    private static async Task<byte[]> PhotographedAsync(Person person, int side) =>
        Convert.FromBase64String(
            await person.Page.EvaluateAsync<string>(
                """
                side => {
                  const canvas = document.createElement('canvas');
                  canvas.width = side; canvas.height = side * 3 / 4;
                  const ink = canvas.getContext('2d'), dots = ink.createImageData(canvas.width, canvas.height);
                  for (let i = 0, x = 1; i < dots.data.length; i++) { x = (x * 16807) % 2147483647; dots.data[i] = i % 4 === 3 ? 255 : x & 255; }
                  ink.putImageData(dots, 0, 0);
                  return canvas.toDataURL('image/jpeg', .9).split(',')[1];
                }
                """,
                side
            )
        );

    [Fact]
    public async Task A_photo_is_shrunk_on_the_phone_kept_with_its_entry_and_goes_with_the_job()
    {
        var (site, entry) = await SiteAsync();
        await using var _ = site;
        await using var phone = await chromium.PersonAsync(site, 390);
        await phone.OpenAsync($"/jobs/1/entries/{entry.Id}");
        var taken = await PhotographedAsync(phone, 2400);
        Assert.True(taken.Length > Photo.MostBytes);
        await phone
            .Page.Locator("#photo")
            .SetInputFilesAsync(
                new Microsoft.Playwright.FilePayload
                {
                    Name = "gauge.jpg",
                    MimeType = "image/jpeg",
                    Buffer = taken,
                }
            );
        await phone.Page.Locator(".shrunk").Filter(new() { HasText = "Ready" }).WaitForAsync();
        await phone.PressAsync("Keep the photo");
        var shown = phone.Page.Locator("#photos img");
        await shown.WaitForAsync();
        Assert.True(
            await shown.EvaluateAsync<bool>("async image => { await image.decode(); return image.naturalWidth > 0; }")
        );
        Assert.Empty(await phone.RulesBrokenAsync());

        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var photo = Assert.Single(await site.Desk.PhotosAsync(record, Cancellation));
        Assert.Equal(entry.Id, photo.Entry);
        Assert.True(photo.Body.Length <= Photo.MostBytes);

        // Out as a picture and nothing else, to be kept for good.
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri($"/jobs/1/photos/{photo.Id}", UriKind.Relative), Cancellation);
        Assert.Equal("image/jpeg", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Contains(
            "default-src 'none'",
            answer.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
        Assert.Equal(photo.Body, await answer.Content.ReadAsByteArrayAsync(Cancellation));
        Assert.Equal(HttpStatusCode.NotFound, await client.LooksAtAsync($"/jobs/1/photos/{entry.Id}"));

        // Small on the card, and inside it.
        var card = await client.GetStringAsync(new Uri("/jobs/1/card.html", UriKind.Relative), Cancellation);
        Assert.Contains("data:image/jpeg;base64,", card, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", card, StringComparison.Ordinal);

        // Into a file and out of it, byte for byte; a second time it changes nothing.
        var text = await client.GetStringAsync(new Uri("/jobs/1/export", UriKind.Relative), Cancellation);
        Assert.Contains("\"version\": 2", text, StringComparison.Ordinal);
        await using var elsewhere = await RunningSite.StartAsync();
        for (var i = 0; i < 2; i++)
        {
            var job = await elsewhere.Desk.ImportAsync(text, Cancellation);
            Assert.True(job.Taken, string.Join(" ", job.Problems.Select(problem => problem.Sentence)));
        }
        var there = (await elsewhere.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal(photo, Assert.Single(await elsewhere.Desk.PhotosAsync(there, Cancellation)));
        Assert.Equal(text, await elsewhere.Desk.ExportAsync(there, Cancellation));

        // Struck with its entry: still there to be seen, and no more on the card.
        await site.Desk.StrikeAsync(1, entry.Id, "Ada", "another car", Cancellation);
        await phone.OpenAsync($"/jobs/1/entries/{entry.Id}");
        Assert.Equal(1, await phone.Page.Locator("#photos .struck img").CountAsync());
        Assert.Equal(0, await phone.Page.Locator("#photo").CountAsync());
        Assert.DoesNotContain(
            "data:image/jpeg",
            await client.GetStringAsync(new Uri("/jobs/1/card.html", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\"><script>1</script></svg>", "a JPEG photo is needed")]
    [InlineData("", "take a photo first")]
    public async Task Without_scripts_what_is_no_photo_is_refused_beside_the_field(string content, string sentence)
    {
        var (site, entry) = await SiteAsync();
        await using var _ = site;
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        await person.OpenAsync($"/jobs/1/entries/{entry.Id}");
        if (content.Length > 0)
            await person
                .Page.Locator("#photo")
                .SetInputFilesAsync(
                    new Microsoft.Playwright.FilePayload
                    {
                        Name = "photo.jpg",
                        MimeType = "image/jpeg",
                        Buffer = Encoding.UTF8.GetBytes(content),
                    }
                );
        await person.PressAsync("Keep the photo");
        Assert.Contains(
            sentence,
            await person.Page.Locator("#photos .problem").InnerTextAsync(),
            StringComparison.Ordinal
        );
        Assert.Empty(await site.Desk.PhotosAsync((await site.Desk.RecordAsync(1, Cancellation))!, Cancellation));
    }

    [Fact]
    public async Task A_file_with_a_photo_that_is_none_or_belongs_to_nothing_brings_in_nothing()
    {
        var (site, entry) = await SiteAsync();
        await using var _ = site;
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        JobRecord With(params byte[] body) =>
            record with
            {
                Photos = [new(new Guid(1, 2, 3, new byte[8]), entry.Id, entry.ObservedAt, [.. body])],
            };
        await using var elsewhere = await RunningSite.StartAsync();
        foreach (
            var (text, sentence) in new[]
            {
                (JobDesk.Export(With(1, 2, 3, 4)), "$.photos[0].jpeg"),
                (
                    JobDesk
                        .Export(With(1, 2, 3, 4))
                        .Replace(
                            $"\"entry\": \"{entry.Id}\",\n      \"kept",
                            $"\"entry\": \"{Guid.Empty}\",\n      \"kept",
                            StringComparison.Ordinal
                        ),
                    "$.photos[0].entry"
                ),
                (JobDesk.Export(With(1)).Replace("\"AQ==\"", "\"§\"", StringComparison.Ordinal), "base64"),
            }
        )
        {
            var taken = await elsewhere.Desk.ImportAsync(text, Cancellation);
            Assert.False(taken.Taken);
            Assert.Contains(
                sentence,
                string.Join(" ", taken.Problems.Select(problem => problem.Sentence)),
                StringComparison.Ordinal
            );
        }
        Assert.Null(await elsewhere.Desk.RecordAsync(1, Cancellation));
    }
}
