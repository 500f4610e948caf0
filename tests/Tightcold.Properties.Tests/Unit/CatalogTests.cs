using System.Text.Json;
using System.Text.RegularExpressions;
using Tightcold.Properties.Data;

namespace Tightcold.Properties.Tests.Unit;

public sealed partial class CatalogTests
{
    [Fact]
    public void The_catalog_lists_the_fluids_of_the_trade() =>
        Assert.Equal(["R134a", "R1234yf", "R152a", "R744", "R12", "Water", "Nitrogen", "Air"], FluidCatalog.Names);

    [Theory]
    [InlineData("R134a", "R134a")]
    [InlineData("r-134A", "R134a")]
    [InlineData("R 1234yf", "R1234yf")]
    [InlineData("water", "Water")]
    public void Names_are_found_whatever_their_capitals_and_dashes(string typed, string name)
    {
        Assert.True(FluidCatalog.TryGet(typed, out var fluid));
        Assert.Equal(name, fluid.Name);
        Assert.Same(fluid, FluidCatalog.Get(name));
        Assert.Same(fluid.Fast, FluidCatalog.GetFast(typed));
    }

    [Theory]
    [InlineData("")]
    [InlineData("R999")]
    [InlineData(null)]
    public void An_unknown_name_is_no_fluid(string? typed) => Assert.False(FluidCatalog.TryGet(typed, out _));

    [Fact]
    public void An_unknown_name_is_answered_with_the_known_ones() =>
        Assert.Contains(
            "R134a, R1234yf",
            Assert.Throws<ArgumentException>(() => FluidCatalog.Get("R999")).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void Every_source_of_every_fluid_stands_in_the_bibliography_under_one_doi()
    {
        using var stream = typeof(CatalogTests).Assembly.GetManifestResourceStream("sources.bib")!;
        using var reader = new StreamReader(stream);
        var entries = Entry()
            .Matches(reader.ReadToEnd())
            .ToDictionary(match => match.Groups[1].Value, match => match.Value);
        foreach (var source in FluidCatalog.Names.SelectMany(name => FluidCatalog.Get(name).Sources))
        {
            Assert.True(entries.TryGetValue(source.Key, out var entry), $"{source.Key} is not in docs/sources.bib");
            if (source.Doi is not null)
                Assert.Contains(source.Doi, entry, StringComparison.OrdinalIgnoreCase);
            Assert.NotEmpty(source.Authors);
            Assert.NotEmpty(source.Title);
            Assert.NotEmpty(source.Journal);
            Assert.InRange(source.Year, 1970, 2026);
        }

        var dois = Doi().Matches(string.Concat(entries.Values)).Select(match => match.Groups[1].Value).ToList();
        Assert.Equal(dois.Count, dois.Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    [Theory]
    [InlineData("R134a", "R-134a", "tillnerroth1994", 0.102032, 8.314471)]
    [InlineData("R1234yf", "R-1234yf", "lemmon2022", 0.1140416, 8.314462618)]
    [InlineData("R744", "R-744", "span1996", 0.0440098, 8.31451)]
    public void A_fluid_tells_its_equation_and_its_own_gas_constant(
        string name,
        string display,
        string key,
        double molarMass,
        double gasConstant
    )
    {
        var fluid = FluidCatalog.Get(name);
        Assert.Equal(display, fluid.DisplayName);
        Assert.Equal(key, fluid.EquationKey);
        Assert.Equal(molarMass, fluid.MolarMassKgPerMol);
        Assert.Equal(gasConstant, fluid.GasConstantJPerMolK);
        Assert.Contains("273.15 K", fluid.ReferenceState, StringComparison.Ordinal);
        Assert.NotEmpty(fluid.ChemicalName);
        Assert.True(fluid.HasSaturation);
    }

    // Published critical points (the fluid files): the equation's own, where its saturation line ends, lies this near.
    [Theory]
    [InlineData("R134a", 374.21, 4059280)]
    [InlineData("R1234yf", 367.85, 3384400)]
    [InlineData("R152a", 386.411, 4520000)]
    [InlineData("R744", 304.1282, 7377300)]
    [InlineData("R12", 385.12, 4136100)]
    [InlineData("Water", 647.096, 22064000)]
    [InlineData("Nitrogen", 126.192, 3395800)]
    public void The_equations_own_critical_point_lies_by_the_published_one(
        string name,
        double temperatureK,
        double pressurePa
    )
    {
        var fluid = FluidCatalog.Get(name);
        Assert.Equal(temperatureK, fluid.CriticalTemperatureK, 3e-3);
        Assert.Equal(pressurePa, fluid.CriticalPressurePa, 1e-3 * pressurePa);
    }

    [Fact]
    public void A_fluid_file_of_another_format_or_with_an_unknown_term_is_refused()
    {
        using var stream = typeof(FluidCatalog).Assembly.GetManifestResourceStream("Fluids/R134a.json")!;
        using var reader = new StreamReader(stream);
        var text = reader.ReadToEnd();
        Refused(text.Replace("tightcold-fluid/1", "tightcold-fluid/0", StringComparison.Ordinal));
        Refused(text.Replace("\"log_tau\"", "\"log_of_tau\"", StringComparison.Ordinal));
        Refused(text.Replace("[0.05586817, 2, -0.5, 0]", "[0.05586817, 2, -0.5]", StringComparison.Ordinal));
        Refused(text.Replace("\"ratio_of_polynomials\"", "\"ratio\"", StringComparison.Ordinal));
        Refused(text.Replace("\"dilute_plus_initial_plus_residual\"", "\"other\"", StringComparison.Ordinal));
        Refused(
            text.Replace("\"conductivity\": {", "\"conductivity\": { \"form\": \"other\",", StringComparison.Ordinal)
        );
        Assert.Equal("R134a", Read(text).Name);

        static FluidDefinition Read(string json)
        {
            using var memory = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(json));
            return FluidFileReader.Read(memory);
        }

        static void Refused(string json) => Assert.Throws<FormatException>(() => Read(json));
    }

    [Fact]
    public void Every_fluid_file_is_readable_json_with_its_format_first()
    {
        foreach (var name in FluidCatalog.Names)
        {
            using var stream = typeof(FluidCatalog).Assembly.GetManifestResourceStream($"Fluids/{name}.json")!;
            using var document = JsonDocument.Parse(stream);
            Assert.Equal("format", document.RootElement.EnumerateObject().First().Name);
            Assert.Equal(name, document.RootElement.GetProperty("name").GetString());
        }
    }

    [GeneratedRegex(@"@\w+\{(\w+),[^@]*")]
    private static partial Regex Entry();

    [GeneratedRegex(@"doi\s*=\s*\{([^}]+)\}")]
    private static partial Regex Doi();
}
