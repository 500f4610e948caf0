using System.Globalization;
using System.Text;
using Tightcold.Procedures.Places;
using Tightcold.Procedures.Rules;

namespace Tightcold.Procedures.Tests.Rules;

public sealed class RuleBookTests
{
    private static PlaceRules At(string code) => RuleBook.Of(Gazetteer.Get(code));

    [Fact]
    public void Every_line_has_its_instrument_its_article_and_its_dates()
    {
        Assert.True(RuleBook.All.Sum(book => book.Lines.Length) > 250);
        Assert.All(RuleBook.All, book => Assert.All(book.Lines, line =>
            {
                var at = $"{book.Key}: {line.Says}";
                Assert.True(line.Instrument.Length > 2, at);
                Assert.True(line.Says.Length is > 10 and <= RuleLine.LongestLine && !line.Says.EndsWith('.'), at);
                Assert.True(IsDay(line.Read), at);
                if (line.Ruling == Ruling.NotKnown)
                    Assert.True(line.Ask.Length > 10, at);
                else
                    Assert.True(line.Article.Length > 0 && IsDate(line.InForce), at);
                Assert.True(line.Sure is not (Sureness.Text or Sureness.Summary) || line.Seen.Length > 0, at);
                Assert.True(line.Sure != Sureness.NotRead || line.Ruling == Ruling.NotKnown, at);
            }));
    }

    private static bool IsDay(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    private static bool IsDate(string text) =>
        IsDay(text)
        || (
            text.Length == 4
            && int.TryParse(text, CultureInfo.InvariantCulture, out var year)
            && year is > 1985 and < 2030
        );

    [Fact]
    public void Every_code_that_a_book_covers_is_the_standards_and_stands_in_one_book()
    {
        var codes = RuleBook.All.SelectMany(book => book.Covers).ToArray();
        Assert.All(codes, code => Assert.NotNull(Gazetteer.Find(code)));
        Assert.Equal(codes.Distinct().Count(), codes.Length);
        Assert.All(RuleBook.All.Where(book => book.Under is not null), book =>
            Assert.Contains(RuleBook.All, other => other.Key == book.Under)
        );
    }

    // The places that the book promises; the 27 members as the treaties have them.
    public static readonly string[] Promised =
    [
        "US",
        "US-CA",
        "US-TX",
        "CA",
        "CA-ON",
        "CA-QC",
        "MX",
        "GB",
        "NO",
        "IS",
        "CH",
        "TR",
        "AU",
        "AU-NSW",
        "NZ",
        "JP",
        "KR",
        "IN",
        "BR",
        "ZA",
        "AE",
        "AT",
        "BE",
        "BG",
        "HR",
        "CY",
        "CZ",
        "DK",
        "EE",
        "FI",
        "FR",
        "DE",
        "GR",
        "HU",
        "IE",
        "IT",
        "LV",
        "LT",
        "LU",
        "MT",
        "NL",
        "PL",
        "PT",
        "RO",
        "SK",
        "SI",
        "ES",
        "SE",
    ];

    [Fact]
    public void Every_promised_place_answers_every_question_or_says_whom_to_ask() => Assert.All(Promised, code =>
        {
            var place = At(code);
            Assert.NotEqual(RuleBook.Elsewhere, place.Books[0].Key);
            Assert.All(Enum.GetValues<Question>(), question =>
                Assert.True(place.Of(question).Any(), $"{code}: {question}")
            );
        });

    [Fact]
    public void Members_of_the_union_stand_under_its_law_and_the_united_kingdom_does_not()
    {
        Assert.All(Promised[^27..], code => Assert.Equal("eu", At(code).Books[^1].Key));
        Assert.Equal("eu", At("GB-NIR").Books[^1].Key);
        Assert.DoesNotContain(At("GB-ENG").Books, book => book.Key == "eu");
        Assert.DoesNotContain(At("CH").Books, book => book.Key == "eu");
        Assert.Equal("eea", At("NO").Books[^1].Key);
    }

    // What the texts say, as far as read: Directive 2006/40/EC Art. 6(3) by the British note of 2009/2194; the licence
    // by the council's bulletin; 40 CFR 82.34(a) “for consideration”; Ontario's page for owners.
    [Theory]
    [InlineData("DE", Act.Recover, Who.Owner, "R-1234yf", Ruling.Qualified)]
    [InlineData("DE", Act.UseCan, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("DE", Act.UseCan, Who.Owner, "R-1234yf", Ruling.NotKnown)]
    [InlineData("DE", Act.Buy, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("DE", Act.Vent, Who.Owner, "R-1234yf", Ruling.Forbidden)]
    [InlineData("FR", Act.Charge, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("FR", Act.Charge, Who.Owner, "R-1234yf", Ruling.Allowed)]
    [InlineData("GB", Act.TopUp, Who.ForPay, "R-134a", Ruling.Forbidden)]
    [InlineData("GB", Act.TopUp, Who.Owner, "R-134a", Ruling.Allowed)]
    [InlineData("GB", Act.TopUp, Who.NotSaid, "R-134a", Ruling.Forbidden)]
    [InlineData("GB-ENG", Act.Recover, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("NO", Act.Recover, Who.ForPay, "R-134a", Ruling.Qualified)]
    [InlineData("AU-NSW", Act.Buy, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("AU-NSW", Act.Charge, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("AU-NSW", Act.TopUp, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("AU", Act.Charge, Who.Owner, "R-1234yf", Ruling.NotKnown)]
    [InlineData("US-TX", Act.Recover, Who.Owner, "R-134a", Ruling.Allowed)]
    [InlineData("US-TX", Act.Recover, Who.ForPay, "R-134a", Ruling.Qualified)]
    [InlineData("US-TX", Act.Recover, Who.NotSaid, "R-134a", Ruling.Qualified)]
    [InlineData("US-CA", Act.Buy, Who.Owner, "R-134a", Ruling.Allowed)]
    [InlineData("US", Act.Buy, Who.Owner, "R-12", Ruling.Qualified)]
    [InlineData("US", Act.Vent, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("US", Act.Vent, Who.Owner, "R-744", Ruling.Allowed)]
    [InlineData("US-WI", Act.TopUp, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("CA-ON", Act.TopUp, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("CA-ON", Act.Charge, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("CA-ON", Act.UseCan, Who.Owner, "R-134a", Ruling.Forbidden)]
    [InlineData("CA-QC", Act.Recover, Who.Owner, "R-134a", Ruling.Qualified)]
    [InlineData("MX", Act.Charge, Who.Owner, "R-134a", Ruling.NotKnown)]
    [InlineData("TR", Act.Buy, Who.Owner, "R-134a", Ruling.Qualified)]
    public void The_law_answers_the_person(string code, Act act, Who who, string refrigerant, Ruling standing) =>
        Assert.Equal(standing, At(code).For(act, who, refrigerant).Ruling);

    [Fact]
    public void What_is_forbidden_is_never_offered_and_what_asks_for_a_certificate_only_to_its_holder()
    {
        foreach (var code in RuleBook.All.SelectMany(book => book.Covers))
        foreach (var act in Enum.GetValues<Act>())
        foreach (var who in Enum.GetValues<Who>())
        {
            var answer = At(code).For(act, who);
            var open = act != Act.Vent || answer.Ruling == Ruling.Allowed;
            Assert.Equal(
                answer.Ruling == Ruling.Qualified || (answer.Ruling != Ruling.Forbidden && open),
                answer.MayBeOffered(qualified: true)
            );
            Assert.Equal(
                answer.Ruling is not (Ruling.Forbidden or Ruling.Qualified) && open,
                answer.MayBeOffered(qualified: false)
            );
            // Saying for whom one works never makes the rule stricter than not saying.
            Assert.True(At(code).For(act, Who.NotSaid).Ruling >= answer.Ruling || answer.Ruling == Ruling.NotKnown);
        }
    }

    [Fact]
    public void A_region_adds_to_its_country_and_one_without_a_book_says_so()
    {
        Assert.Equal(["us-ca", "us"], At("US-CA").Books.Select(book => book.Key));
        Assert.Empty(At("US-CA").Unknown);
        Assert.Contains("Ohio", Assert.Single(At("US-OH").Unknown).ToString(), StringComparison.Ordinal);
        Assert.Contains("choose the region", Assert.Single(At("US").Unknown).ToString(), StringComparison.Ordinal);
        Assert.Contains("Belarus", Assert.Single(At("BY").Unknown).ToString(), StringComparison.Ordinal);
        Assert.Equal(RuleBook.Elsewhere, At("BY").Books[0].Key);
        Assert.Contains(
            "choose",
            Assert.Single(RuleBook.Of("invented; check local rules").Unknown).ToString(),
            StringComparison.Ordinal
        );
    }

    // R-134a 1430 and R-152a 124 as annex I of Regulation (EU) 517/2014 prints them, after the fourth assessment
    // report.
    [Fact]
    public void The_warming_potential_is_the_one_that_the_law_of_the_place_counts_with()
    {
        Assert.Equal(1430, At("GB").WarmingOf("R-134a")!.Value.Potential);
        Assert.Equal(124, At("DE").WarmingOf("R-152a")!.Value.Potential);
        Assert.Equal(4, At("GB").WarmingOf("R-1234yf")!.Value.Potential);
        Assert.True(At("DE").WarmingOf("R-1234yf")!.Value.Potential < 1);
        Assert.Contains("AR4", At("US").WarmingOf("R-134a")!.Value.Line.Report, StringComparison.Ordinal);
        Assert.Null(At("US").WarmingOf("R-1234yf"));
        Assert.Null(At("MX").WarmingOf("R-134a"));
    }

    // R-134a 1430, R-152a 124, R-12 10 900: table 2.14 of the fourth report; R-1234yf, which that has not, 0.501 by the
    // sixth. From memory but for R-134a and R-152a, which annex I prints.
    [Fact]
    public void Every_figure_names_one_report_and_whose_law_counts_so()
    {
        Assert.All(RuleBook.All.SelectMany(book => book.Lines), line =>
            Assert.Equal(line.Warming.Count > 0, line.Report.Length > 0)
        );
        Assert.Equal("fourth assessment report, so counted by law: European Union", At("DE").Warming("R-134a")!.Words);
        Assert.Equal((0.501, "AR6", "European Union"), Three(At("DE").Warming("R-1234yf")!));
        Assert.Equal((4, "SAP 2010", "Great Britain"), Three(At("GB").Warming("R-1234yf")!));
        Assert.Equal((1430, "AR4", "United States"), Three(At("US-TX").Warming("R-134a")!));
        // Where the law of the place names no figure, the report is named, and that no law stands behind it.
        Assert.Equal((0.501, "AR6", null), Three(At("US").Warming("R-1234yf")!));
        Assert.Equal((1430, "AR4", null), Three(At("MX").Warming("R-134a")!));
        Assert.Equal((10_900, "AR4", null), Three(RuleBook.Of(Gazetteer.NotSaid).Warming("R-12")!));
        Assert.Contains(
            "no law of the place read",
            At("MX").Warming("R-134a")!.Words.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(At("DE").Warming("mixed or unknown"));
    }

    private static (double, string, string?) Three(WarmingFigure figure) =>
        (figure.Potential, figure.Report, figure.Law);

    // 40 CFR 82.42(b), O. Reg. 463/10 by the province's page, regulation 141(1) of the Australian regulations.
    [Theory]
    [InlineData("US-TX", Who.ForPay, "WentTo Certificate", 3)]
    [InlineData("US-TX", Who.Owner, null, null)]
    [InlineData("CA-ON", Who.Owner, "Date Person Certificate LeakCheck", null)]
    [InlineData("AU-NSW", Who.ForPay, "Bought Recovered WentTo", null)]
    [InlineData("AU-NSW", Who.Owner, null, null)]
    [InlineData("GB-ENG", Who.ForPay, null, null)]
    [InlineData("DE", Who.Owner, null, null)]
    [InlineData("BY", Who.Owner, "Date Person Refrigerant Recovered Charged Cylinder WentTo", null)]
    public void A_record_duty_says_what_it_wants_written_down(string code, Who who, string? asks, int? years)
    {
        var line = At(code).RecordDuty(who, "R-134a");
        Assert.Equal(asks, line is null ? null : string.Join(' ', line.Asks));
        Assert.Equal(years, line?.Years);
    }

    [Fact]
    public void A_line_says_the_act_the_place_and_the_rule_and_its_article_is_read_on()
    {
        var place = At("AU-NSW");
        var answer = place.For(Act.TopUp, Who.Owner, "R-134a");
        Assert.Equal(
            "Topping up a leak, New South Wales, Australia: Topping up a leaking car is illegal: look for "
                + "the leak and mend it first.",
            RuleWords.Line(place, answer).ToString()
        );
        Assert.Contains(
            "136; since 2005-01-01; summary read on 2026-11-29",
            RuleWords.ReadOn(answer.Line!).ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "(for pay or in trade)",
            RuleWords.Plain(At("US-WI").Of(Question.Records).First()).ToString(),
            StringComparison.Ordinal
        );
    }

    /// <summary>A whole line, and each field taken out or spoilt.</summary>
    [Theory]
    [InlineData("\"in-force\": \"2020\"", "", "in-force")]
    [InlineData("\"instrument\": \"law\"", "", "instrument")]
    [InlineData("\"article\": \"1\"", "", "article")]
    [InlineData("\"is\": \"allowed\"", "\"is\": \"maybe\"", "maybe")]
    [InlineData("\"sure\": \"memory\"", "\"sure\": \"text\"", "seen")]
    [InlineData("\"sure\": \"memory\"", "\"sure\": \"not-read\"", "not known")]
    [InlineData("\"is\": \"allowed\"", "\"is\": \"not-known\"", "ask")]
    public void A_line_that_lacks_something_is_refused_by_name(string field, string instead, string named)
    {
        string[] whole =
        [
            "\"question\": \"buy\"",
            "\"is\": \"allowed\"",
            "\"says\": \"everybody may buy\"",
            "\"instrument\": \"law\"",
            "\"article\": \"1\"",
            "\"in-force\": \"2020\"",
            "\"sure\": \"memory\"",
        ];
        Assert.Equal("everybody may buy", Read(whole).Lines[0].Says);
        var spoilt = whole.Select(part => part == field ? instead : part).Where(part => part.Length > 0);
        var message = Assert.Throws<FormatException>(() => Read(spoilt)).Message;
        Assert.StartsWith("x.lines[0]", message, StringComparison.Ordinal);
        Assert.Contains(named, message, StringComparison.Ordinal);
    }

    private static Book Read(IEnumerable<string> parts)
    {
        var file =
            "{ \"format\": 2, \"name\": \"X\", \"covers\": [], \"authority\": \"a\", \"read\": \"2026-11-29\", \"lines\": [ { "
            + string.Join(", ", parts)
            + " } ] }";
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(file));
        return BookReader.Read(stream, "x");
    }
}
