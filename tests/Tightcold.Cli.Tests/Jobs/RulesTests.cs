namespace Tightcold.Cli.Tests.Jobs;

public sealed class RulesTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task The_book_of_a_place_is_printed_with_article_date_and_how_sure()
    {
        var said = await desk.DoneAsync("rules", "DE");
        Assert.Contains("Rules of Germany", said, StringComparison.Ordinal);
        Assert.Contains("§ 5(1)", said, StringComparison.Ordinal);
        Assert.Contains("since 2024-03-11", said, StringComparison.Ordinal);
        Assert.Contains("from memory on", said, StringComparison.Ordinal);
        Assert.Contains("check local rules", said, StringComparison.Ordinal);
        var owner = await desk.DoneAsync("rules", "US-CA", "--refrigerant", "R-134a", "--works", "owner");
        Assert.DoesNotContain("section 609 training", owner, StringComparison.Ordinal);
        Assert.DoesNotContain("R-12:", owner, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_kits_place_is_taken_when_none_is_typed_and_one_not_said_says_what_is_unknown()
    {
        await desk.DoneAsync("kit", "set", "jurisdiction=New South Wales");
        Assert.Equal("AU-NSW", (string?)(await desk.JsonAsync("rules"))["place"]);
        await desk.DoneAsync("kit", "set", "jurisdiction=not said");
        Assert.Contains("choose country and region", await desk.DoneAsync("rules"), StringComparison.Ordinal);
        Assert.Null((await desk.JsonAsync("rules"))["place"]);
        Assert.Contains(
            "80 %",
            await desk.DoneAsync(
                "cylinder",
                "--refrigerant",
                "R-134a",
                "--water-capacity",
                "47.6 lb",
                "--place",
                "Ohio"
            ),
            StringComparison.Ordinal
        );
    }

    // The place is held to the list when it is typed; what stands in the kit is the list's own writing of it.
    [Fact]
    public async Task The_place_of_the_kit_is_one_of_the_list_or_said_not_to_be_said()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("Germany (DE)", "kit", "set", "jurisdiction=Germny");
        await desk.RefusedAsync("“not said”", "kit", "set", "jurisdiction=somewhere by the sea");
        await desk.RefusedAsync("Georgia (GE) or Georgia, United States (US-GA)", "kit", "set", "jurisdiction=Georgia");
        Assert.Contains("no instrument described", await desk.DoneAsync("kit", "show"), StringComparison.Ordinal);
        Assert.Contains(
            "New South Wales, Australia (AU-NSW)",
            await desk.DoneAsync("kit", "set", "jurisdiction=au-nsw"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "if California, United States (US-CA) was meant",
            await desk.DoneAsync("kit", "set", "jurisdiction=CA"),
            StringComparison.Ordinal
        );
        await desk.RefusedAsync(
            "no whole name or code",
            "cylinder",
            "--refrigerant",
            "R-134a",
            "--water-capacity",
            "47.6 lb",
            "--place",
            "Walestown"
        );
    }

    [Fact]
    public async Task One_step_alone_shows_all_its_cautions_and_the_law_with_its_articles()
    {
        await desk.DoneAsync("kit", "set", "jurisdiction=Germany", "works=on your own cars, unpaid");
        await desk.OpenJobAsync();
        var whole = await desk.DoneAsync("job", "findings", "1", "--step", "recover");
        Assert.Contains("law: Recovering, Germany: Only with the certificate", whole, StringComparison.Ordinal);
        Assert.Contains("§ 5(1)", whole, StringComparison.Ordinal);
        Assert.Contains("Goggles and gloves", whole, StringComparison.Ordinal);
        await desk.RefusedAsync("weigh-in", "job", "findings", "1", "--step", "recovering");
    }

    [Fact]
    public async Task A_place_that_is_none_is_refused_with_what_to_type()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("no whole name or code", "rules", "Walestown");
        await desk.RefusedAsync("Georgia (GE) or Georgia, United States (US-GA)", "rules", "Georgia");
        await desk.RefusedAsync("owner or for-pay", "rules", "DE", "--works", "hobby");
        await desk.RefusedAsync("no country or region", "places", "qqq");
    }

    [Fact]
    public async Task Places_are_found_by_the_beginnings_of_their_words()
    {
        Assert.Contains("AU-NSW", await desk.DoneAsync("places", "new", "south"), StringComparison.Ordinal);
        Assert.Equal("AT", (string?)(await desk.JsonAsync("places", "österr"))["places"]![0]!["code"]);
    }
}
