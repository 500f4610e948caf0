using Tightcold.Procedures.Places;

namespace Tightcold.Procedures.Tests.Rules;

public sealed class GazetteerTests
{
    // ISO 3166-1 has 249 codes; ISO 3166-2 has 50 states and the district of the United States (outlying areas have a
    // country's code of their own), 13 parts of Canada, 8 of Australia, 4 countries of the United Kingdom, 3 regions of
    // Belgium. EU is exceptionally reserved.
    [Fact]
    public void The_list_is_the_standards_and_every_code_resolves_to_itself()
    {
        Assert.Equal(249 + 1, Gazetteer.All.Count(place => !place.IsRegion));
        Assert.Equal(51, Gazetteer.RegionsOf(Gazetteer.Get("US")).Count());
        Assert.Equal(13, Gazetteer.RegionsOf(Gazetteer.Get("CA")).Count());
        Assert.Equal(8, Gazetteer.RegionsOf(Gazetteer.Get("AU")).Count());
        Assert.Equal(4, Gazetteer.RegionsOf(Gazetteer.Get("GB")).Count());
        Assert.Equal(3, Gazetteer.RegionsOf(Gazetteer.Get("BE")).Count());
        Assert.All(Gazetteer.All, place =>
        {
            Assert.Equal(place, Gazetteer.Read(place.Code).Place);
            Assert.Equal(place, Gazetteer.Read(place.Label).Place);
            if (place.Three.Length > 0)
                Assert.Equal(place, Gazetteer.Read(place.Three).Place);
        });
    }

    [Theory]
    [InlineData("New South Wales", "AU-NSW")]
    [InlineData("new south wales", "AU-NSW")]
    [InlineData("NSW, Australia", "AU-NSW")]
    [InlineData("Wales", "GB-WLS")]
    [InlineData("New Mexico", "US-NM")]
    [InlineData("Mexico", "MX")]
    [InlineData("Österreich", "AT")]
    [InlineData("Osterreich", "AT")]
    [InlineData("España", "ES")]
    [InlineData("Québec", "CA-QC")]
    [InlineData("日本", "JP")]
    [InlineData("Schweiz", "CH")]
    [InlineData("Suisse", "CH")]
    [InlineData("대한민국", "KR")]
    [InlineData("Ohio, USA", "US-OH")]
    [InlineData("USA, California", "US-CA")]
    [InlineData("Paris, Texas", "US-TX")]
    [InlineData("Lyon, France", "FR")]
    [InlineData("Sacramento, CA, USA", "US-CA")]
    [InlineData("Georgia, USA", "US-GA")]
    [InlineData("U.S.A.", "US")]
    [InlineData("uk", "GB")]
    [InlineData("Northern Ireland, UK", "GB-NIR")]
    [InlineData("us-ca", "US-CA")]
    [InlineData("Germany", "DE")]
    [InlineData("Germany (DE)", "DE")]
    public void A_whole_name_or_code_is_a_place(string typed, string code) =>
        Assert.Equal(code, Gazetteer.Read(typed).Place?.Code);

    [Theory]
    [InlineData("Georgia")]
    [InlineData("Congo")]
    [InlineData("Texas, Queensland")]
    [InlineData("New South Wales, UK")]
    [InlineData("invented; check local rules")]
    [InlineData("somewhere else")]
    [InlineData("somewhere in Wales")]
    [InlineData("Walestown")]
    [InlineData("no")]
    [InlineData("in")]
    [InlineData("California USA")]
    [InlineData("Germany (FR)")]
    [InlineData("Europe")]
    [InlineData("")]
    [InlineData(null)]
    public void What_is_no_whole_name_or_means_two_places_stays_unknown_and_asks_to_choose(string? typed)
    {
        var reading = Gazetteer.Read(typed);
        Assert.Null(reading.Place);
        Assert.Contains("choose", reading.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_whole_name_is_its_place_or_shared_with_another()
    {
        Assert.All(Gazetteer.All, place => Assert.All(place.Names, name =>
            {
                var reading = Gazetteer.Read(name);
                if (reading.Place is { } found)
                    Assert.Equal(place, found);
                else
                    Assert.Contains(place, reading.Offered);
            }));
    }

    // The law of the list: whatever stands before or behind a name, the name in it never counts.
    [Fact]
    public void No_name_is_matched_in_part()
    {
        var names = Gazetteer
            .All.SelectMany(place => place.Names)
            .Where(name => name.Length > 3 && !name.Contains(',') && !name.Contains('('))
            .Distinct()
            .ToArray();
        Assert.True(names.Length > 800);
        Assert.All(names, name =>
        {
            Assert.Null(Gazetteer.Read($"near {name} qx").Place);
            Assert.Null(Gazetteer.Read($"Qx{name}").Place);
            Assert.Null(Gazetteer.Read($"{name}qx").Place);
        });
    }

    [Fact]
    public void A_code_that_is_also_short_for_a_state_says_so()
    {
        var reading = Gazetteer.Read("CA");
        Assert.Equal("CA", reading.Place?.Code);
        Assert.Contains("California, United States (US-CA)", reading.Sentence.ToString(), StringComparison.Ordinal);
        Assert.Empty(Gazetteer.Read("FR").Sentence.Parts);
    }

    [Fact]
    public void A_search_offers_places_and_never_settles_one()
    {
        Assert.Contains(Gazetteer.Search("new sou"), place => place.Code == "AU-NSW");
        Assert.Equal("DE", Gazetteer.Search("deutsch")[0].Code);
        Assert.Equal("GE", Gazetteer.Search("georgia")[0].Code);
        Assert.Contains(Gazetteer.Search("georgia"), place => place.Code == "US-GA");
        Assert.Empty(Gazetteer.Search("qqq"));
        Assert.Empty(Gazetteer.Search(" "));
        Assert.Contains(Gazetteer.Read("Californ").Offered, place => place.Code == "US-CA");
    }

    [Theory]
    [InlineData("Germny", "DE")]
    [InlineData("Norwya", "NO")]
    [InlineData("New Sout Wales", "AU-NSW")]
    [InlineData("Califronia", "US-CA")]
    [InlineData("somewhere in Wales", "GB-WLS")]
    public void What_is_written_almost_so_is_offered_and_never_chosen(string typed, string code)
    {
        var reading = Gazetteer.Read(typed);
        Assert.Null(reading.Place);
        Assert.Contains(reading.Offered, place => place.Code == code);
    }

    [Fact]
    public void Nothing_is_offered_for_what_is_like_no_name() => Assert.Empty(Gazetteer.Near("qqqqqqq"));

    [Fact]
    public void Not_said_is_a_word_of_its_own_and_no_place()
    {
        var reading = Gazetteer.Read("Not said");
        Assert.Null(reading.Place);
        Assert.Contains("is not said", reading.Sentence.ToString(), StringComparison.Ordinal);
        Assert.Empty(reading.Offered);
    }

    [Fact]
    public void An_unknown_code_is_refused_by_name() =>
        Assert.Contains(
            "QQ",
            Assert.Throws<ArgumentException>(() => Gazetteer.Get("QQ")).Message,
            StringComparison.Ordinal
        );
}
