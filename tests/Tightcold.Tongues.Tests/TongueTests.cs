using Tightcold.App.Units;
using Tightcold.Quantities;

namespace Tightcold.Tongues.Tests;

public sealed class TongueTests
{
    private static Tongue Named(string name) => AllTongues.Named(name)!;

    /// <summary>Whole numbers and their categories: Unicode CLDR, language plural rules (the samples that its charts
    /// print; from memory).</summary>
    [Theory]
    [InlineData("en", "1", "0 2 3 16 100 1000")]
    [InlineData("de", "1", "0 2 3 16 100 1000")]
    [InlineData("es", "1", "0 2 3 16 100 1000")]
    [InlineData("fr", "0 1", "2 3 17 100 1000")]
    [InlineData("pl", "1", "2 3 4 22 23 24 32 42 102 1002", "0 5 6 11 12 13 14 15 19 100 1000 112")]
    public void A_number_takes_the_form_that_the_language_gives_it(string name, params string[] forms)
    {
        var book = new Catalogue([new(null, "{0} can", "{0} cans", [.. forms.Select((_, at) => $"form {at}")], [])]);
        var shipped = Named(name);
        var tongue = shipped.With(book);
        for (var form = 0; form < forms.Length; form++)
            foreach (var count in forms[form].Split(' ').Select(long.Parse))
                Assert.Equal((count, $"form {form}"), (count, tongue.Say("{0} can", "{0} cans", count)));
    }

    [Theory]
    [InlineData("de-AT,de;q=0.9,en;q=0.5", "de")]
    [InlineData("nl,fr;q=0.4,es;q=0.8", "es")]
    [InlineData("pl_PL.UTF-8", "pl")]
    [InlineData("C", "en")]
    [InlineData("sv, *;q=0.1", "en")]
    [InlineData("de;q=0", "en")]
    [InlineData("", "en")]
    [InlineData(null, "en")]
    [InlineData(";;,q=,,de;q=x", "en")]
    public void The_best_language_that_there_is_of_those_wished_for(string? wishes, string name) =>
        Assert.Equal(name, AllTongues.Wished(wishes).Name);

    [Fact]
    public void Words_change_their_order_with_the_language_and_numbers_go_along()
    {
        var tongue = Named("de").With(new([new(null, "{0} of {1} left", null, ["von {1} noch {0}"], [])]));
        var phrase = Phrase.Of($"{Measure.Kilograms(0.2)} of {Measure.Kilograms(0.5)} left");
        Assert.Equal("von 500 g noch 200 g", phrase.Render(new ReaderUnits(UnitSystem.Metric, tongue)));
        Assert.Equal("200 g of 500 g left", phrase.Render(new ReaderUnits(UnitSystem.Metric, AllTongues.English)));
    }

    [Fact]
    public void A_word_is_said_as_it_is_said_where_it_stands()
    {
        var tongue = Named("de")
            .With(new([new(null, "clear", null, ["frei"], []), new("sight-glass", "clear", null, ["klar"], [])]));
        Assert.Equal(
            ["klar", "frei", "frei"],
            [tongue.Say("clear", "sight-glass"), tongue.Say("clear", "outcome"), tongue.Say("clear")]
        );
    }

    [Fact]
    public void What_a_person_wrote_is_never_translated()
    {
        var tongue = Named("de").With(new([new(null, "warm", null, ["heiß"], [])]));
        var units = new ReaderUnits(UnitSystem.Metric, tongue);
        Assert.Equal("warm", Phrase.Verbatim("warm").Render(units));
        Assert.Equal("heiß", Phrase.Words("warm").Render(units));
    }

    [Fact]
    public void Numbers_and_dates_are_written_as_the_language_writes_them()
    {
        var moment = new DateTimeOffset(2026, 3, 9, 7, 5, 0, TimeSpan.Zero);
        Assert.Equal("1013.25", 1013.25.ToString("0.##", AllTongues.English.Culture));
        foreach (var tongue in AllTongues.All.Where(tongue => tongue != AllTongues.English))
        {
            Assert.Equal("1013,25", 1013.25.ToString("0.##", tongue.Culture));
            Assert.Equal(
                "4,5 bar",
                new ReaderUnits(UnitSystem.Metric, tongue).Format(new(QuantityKind.GaugePressure, 4.5e5))[..7]
            );
        }
        // Months as they stand in a date: ISO has no words for them; common knowledge of each language.
        foreach (
            var (name, day, full) in new[]
            {
                ("en", "9 March 2026", "9 Mar 2026 07:05"),
                ("de", "9. März 2026", "9. Mär 2026 07:05"),
                ("es", "9 de marzo de 2026", "9 mar 2026 07:05"),
                ("fr", "9 mars 2026", "9 mars 2026 07:05"),
                ("pl", "9 marca 2026", "9 mar 2026 07:05"),
            }
        )
            Assert.Equal((day, full), (DatePatterns.Day(moment, Named(name)), DatePatterns.Full(moment, Named(name))));
    }

    [Fact]
    public void A_label_inside_a_line_is_written_small_except_where_nouns_are_large()
    {
        Assert.Equal("UV lamp", AllTongues.English.Within("UV lamp"));
        Assert.Equal("standing pressure", AllTongues.English.Within("Standing pressure"));
        Assert.Equal("Ruhedruck", Named("de").Within("Ruhedruck"));
        Assert.Equal("presión en reposo", Named("es").Within("Presión en reposo"));
    }

    [Fact]
    public void A_file_that_is_none_is_refused_with_its_line()
    {
        foreach (var (text, line) in new[] { ("msgid \"a\"\nmsgstr b\n", 2), ("hello\n", 1), ("msgid \"\\q\"\n", 1) })
        {
            using var reader = new StringReader(text);
            var trouble = Assert.Throws<FormatException>(() => Catalogue.Read(reader));
            Assert.Contains($"line {line}", trouble.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_is_written_is_read_again()
    {
        var one = new Catalogue.Message(
            "here",
            "say \"a\\b\"\n{0}",
            null,
            ["sage „a“\t{0}"],
            ["# by hand", "#. {0}: x"]
        );
        var many = new Catalogue.Message(null, "{0} can", "{0} cans", ["{0} puszka", "{0} puszki", "{0} puszek"], []);
        using var reader = new StringReader(Catalogue.Written(one) + "\n" + Catalogue.Written(many));
        var back = Catalogue.Read(reader).Messages;
        Assert.Equal((one.Context, one.Id, one.Said[0]), (back[0].Context, back[0].Id, back[0].Said[0]));
        Assert.Equal(one.Notes, back[0].Notes);
        Assert.Equal(many.Said, back[1].Said);
        Assert.Equal(many.Plural, back[1].Plural);
    }
}
