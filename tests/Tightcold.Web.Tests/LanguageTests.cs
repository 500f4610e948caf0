using System.Collections.Immutable;
using System.Net;
using System.Text.RegularExpressions;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Procedures.Rules;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The pages in the languages that there are, and in one that nobody speaks.</summary>
public sealed partial class LanguageTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public static TheoryData<string> Languages => ["de", "es", "fr", "pl"];

    private static async Task<PhoneSite> DemoInAsync(string language)
    {
        var phone = await PhoneSite.WithDemoAsync();
        phone.Memory.Write(Choice.Language, language);
        return phone;
    }

    /// <summary>Proper names, units and abbreviations that no language translates.</summary>
    private static readonly HashSet<string> OfNoLanguage =
    [
        .. (
            "Tightcold bar abs psi psig psia inHg hPa kPa mbar Pa micron min kg mL oz lb ft cfm rpm yr g/yr RH UTC PAG POE PVE TXV UV EPDM "
            + "HNBR R R-134a R-1234yf R-744 html CSV PDF ics QR SAE ISO EN EU EPA CFR UK USA Deutsch English Español Français Polski "
            + "Schrader https http mm cm km L/min fl MPa torr mmHg kJ kJ/kg kg/m in ppm PDF AR4 AR5 AR6 J1739 "
            + "Tightcold-1"
        ).Split(' '),
    ];

    [Fact]
    public async Task Nothing_that_a_page_shows_stands_outside_the_catalogues()
    {
        await using var phone = await DemoInAsync("qps");
        using var client = phone.Client();
        var record = (await phone.Desk.RecordAsync(1, Cancellation))!;
        var own = OwnWords(record);
        var pages = await Crawl.PagesAsync(client, Cancellation);
        Assert.True(pages.Count > 40);
        var outside = new SortedSet<string>(StringComparer.Ordinal);
        var marked = 0;
        foreach (var path in pages.Append("/jobs/1/card"))
        {
            var html = await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
            foreach (var text in TextsOf(html))
            {
                marked += Marked().Count(text);
                foreach (Match word in Word().Matches(Digest().Replace(Marked().Replace(text, " "), " ")))
                    if (!own.Contains(word.Value) && !OfNoLanguage.Contains(word.Value))
                        outside.Add($"{Unnamed(path)}: {word.Value} in “{text[..Math.Min(90, text.Length)]}”");
            }
        }
        Assert.True(marked > 2000, $"only {marked} messages on all pages");
        Assert.True(outside.Count == 0, string.Join('\n', outside.Take(200)));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public async Task The_same_job_has_the_same_figures_in_every_language(string language)
    {
        await using var here = await DemoInAsync(language);
        await using var there = await DemoInAsync("en");
        using var client = here.Client();
        using var english = there.Client();
        var pages = (await Crawl.PagesAsync(english, Cancellation)).Where(path =>
            path.StartsWith("/jobs/1", StringComparison.Ordinal)
        );
        foreach (var path in pages)
        {
            var (spoken, tspoken) = (await FiguresAsync(client, path), await FiguresAsync(english, path));
            var more = Less(spoken, tspoken);
            var missing = Less(tspoken, spoken);
            Assert.True(
                more.Length + missing.Length == 0,
                $"{path} in {language}: too many: {string.Join(' ', more)}; missing: {string.Join(' ', missing)}"
            );
        }
        Assert.Contains(
            $"<html lang=\"{language}\"",
            await client.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_job_written_in_Polish_reads_in_Spanish_and_holds_the_same()
    {
        await using var phone = await DemoInAsync("pl");
        using var client = phone.Client();
        var id = Guid.CreateVersion7();
        using var sent = await client.SendAsync(
            "/jobs/1/entries/new/standing-reading",
            new Dictionary<string, string>
            {
                ["id"] = $"{id}",
                ["f.low-side"] = "4,7",
                ["u.low-side"] = "bar gauge",
                ["f.ambient-temperature"] = "21,5",
                ["u.ambient-temperature"] = "°C",
            }
        );
        Assert.Equal(303, (int)sent.StatusCode);
        var entry = (await phone.Desk.RecordAsync(1, Cancellation))!.Journal.Find(id)!;
        Assert.Equal(4.7e5, entry.Fields.Get<Quantities.GaugePressure>(FieldNames.LowSide)!.Value.Pascals, 1.0);
        phone.Memory.Write(Choice.Language, "es");
        var page = await client.GetStringAsync(new Uri($"/jobs/1/entries/{id}", UriKind.Relative), Cancellation);
        Assert.Contains("4,7", page, StringComparison.Ordinal);
        Assert.Contains("lang=\"es\"", page, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public async Task The_card_comes_in_the_customers_language_and_the_page_stays_in_the_mechanics(string language)
    {
        await using var phone = await PhoneSite.WithDemoAsync();
        using var client = phone.Client();
        Task<string> AtAsync(string path) => client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
        var own = await AtAsync("/jobs/1/card");
        Assert.Contains($"/jobs/1/card?language={language}", own, StringComparison.Ordinal);
        var card = await AtAsync($"/jobs/1/card?language={language}");
        Assert.Contains($"<html lang=\"{language}\"", card, StringComparison.Ordinal);
        Assert.Contains($"/jobs/1/card.html?language={language}", card, StringComparison.Ordinal);
        Assert.Contains(
            $"<html lang=\"{language}\"",
            await AtAsync($"/jobs/1/card.html?language={language}"),
            StringComparison.Ordinal
        );
        Assert.Contains("<html lang=\"en\"", await AtAsync("/jobs/1"), StringComparison.Ordinal);
        Assert.Contains("<html lang=\"en\"", await AtAsync("/jobs/1/card?language=no-such"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en-US", "en")]
    [InlineData("pl-PL", "pl")]
    [InlineData("nl-NL", "en")]
    public async Task The_browser_wishes_a_language_and_one_tap_chooses_another(string wish, string comes)
    {
        await using var site = await RunningSite.WithDemoAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.Page.SetExtraHTTPHeadersAsync(new Dictionary<string, string> { ["Accept-Language"] = wish });
        await person.OpenAsync("/");
        Assert.Equal(comes, await person.Page.Locator("html").GetAttributeAsync("lang"));
        await person.PressAsync("Français");
        Assert.Equal("fr", await person.Page.Locator("html").GetAttributeAsync("lang"));
        await person.OpenAsync("/jobs/1");
        Assert.Equal("fr", await person.Page.Locator("html").GetAttributeAsync("lang"));
        Assert.Empty(await person.RulesBrokenAsync());
    }

    /// <summary>Words that the person typed, each by itself.</summary>
    private static HashSet<string> OwnWords(JobRecord record)
    {
        var texts = new List<string?> { record.Job.Complaint, record.Car.Label, record.WaitingFor };
        texts.AddRange(record.Journal.All.Select(entry => entry.Who));
        texts.AddRange(record.Journal.All.Select(entry => entry.Reason));
        foreach (var entry in record.Journal.All)
            texts.AddRange(Free(entry.Schema, entry.Fields));
        texts.AddRange(Free(Jobs.Cars.Car.Schema, record.Car.Fields));
        foreach (var kit in record.Kits)
        {
            texts.AddRange(Free(Jobs.Kits.Kit.Schema, kit.Fields));
            foreach (var container in kit.Containers)
                texts.AddRange(Free(Jobs.Kits.Container.Schema, container.Fields).Append(container.Name));
        }
        // A law keeps its name, and where it was read is said as it is called there.
        foreach (var line in RuleBook.Of("US-CA").Books.SelectMany(book => book.Lines))
            texts.AddRange([line.Instrument, line.Article, line.InForce, line.Seen]);
        return [.. texts.SelectMany(text => Word().Matches(text ?? "").Select(match => match.Value))];
    }

    private static IEnumerable<string?> Free(Schema schema, FieldBag fields) =>
        schema
            .Fields.Where(field => field.Type is FieldType.Text or FieldType.Container)
            .Select(field => fields.Text(field.Name));

    private static IEnumerable<string> TextsOf(string html)
    {
        // The map's labels are broken into lines and cut to the room that they have.
        html = Map().Replace(NextLine().Replace(Unread().Replace(html, " "), " "), " ");
        foreach (Match attribute in ShownAttribute().Matches(html))
            yield return WebUtility.HtmlDecode(attribute.Groups[1].Value);
        foreach (var text in Tag().Split(html))
            if (text.Trim().Length > 0)
                yield return WebUtility.HtmlDecode(text).Trim();
    }

    private static async Task<ImmutableArray<string>> FiguresAsync(HttpClient client, string path)
    {
        var html = await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
        html = html[html.IndexOf("<main", StringComparison.Ordinal)..];
        return
        [
            .. Tag()
                // A drawing leaves out a label that has no room, and longer words have less.
                .Split(Drawing().Replace(Unread().Replace(html, " "), " "))
                // Thousands stand apart in some languages.
                // Revolutions a minute are a unit with a figure in it.
                .Select(text => text.Replace("1/min", "rpm", StringComparison.Ordinal))
                .Select(text => Apart().Replace(WebUtility.HtmlDecode(text), ""))
                .SelectMany(text => Figure().Matches(text).Select(match => match.Value.Replace(',', '.')))
                .Order(StringComparer.Ordinal),
        ];
    }

    /// <summary>What stands in one list more often than in the other.</summary>
    private static string[] Less(IEnumerable<string> these, IEnumerable<string> those)
    {
        var left = those.CountBy(one => one).ToDictionary();
        return [.. these.Where(one => (left[one] = left.GetValueOrDefault(one) - 1) < 0)];
    }

    private static string Unnamed(string path) => Id().Replace(path, "*");

    /// <summary>A text that was cut has one of the brackets only.</summary>
    [GeneratedRegex("⟦[^⟦⟧]*⟧|⟦[^⟦⟧]*(?=$|⟦)|^[^⟦⟧]*(?:⟧|…$)")]
    private static partial Regex Marked();

    [GeneratedRegex("[A-Za-zÀ-ž][A-Za-zÀ-ž0-9/-]*[A-Za-zÀ-ž0-9]")]
    private static partial Regex Word();

    [GeneratedRegex("(?<=[0-9])[\u00a0\u202f](?=[0-9]{3}(?![0-9]))")]
    private static partial Regex Apart();

    [GeneratedRegex("[0-9]+(?:[.,][0-9]+)?(?![0-9])")]
    private static partial Regex Figure();

    [GeneratedRegex(
        "<(script|style|datalist|svg class=\"qr\")[^>]*>.*?</(script|style|datalist|svg)>|<!--.*?-->|<code[^>]*>.*?</code>",
        RegexOptions.Singleline
    )]
    private static partial Regex Unread();

    [GeneratedRegex(" (?:aria-label|alt|placeholder|title)=\"([^\"]*)\"")]
    private static partial Regex ShownAttribute();

    [GeneratedRegex("<figure class=\"map.*?</figure>", RegexOptions.Singleline)]
    private static partial Regex Map();

    [GeneratedRegex("[0-9a-f]{4}(?:-[0-9a-f]{4}){3}")]
    private static partial Regex Digest();

    [GeneratedRegex("<svg.*?</svg>", RegexOptions.Singleline)]
    private static partial Regex Drawing();

    [GeneratedRegex("</tspan>\\s*<tspan[^>]*>")]
    private static partial Regex NextLine();

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Tag();

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Id();
}
