using Tightcold.Tongues;

namespace Tightcold.Cli.Tests.Words;

/// <summary>The command line in the languages that there are.</summary>
public sealed class LanguageTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Theory]
    [InlineData("de", "Auftrag", "0,939")]
    [InlineData("es", "Trabajo", "0,939")]
    [InlineData("fr", "Intervention", "0,939")]
    [InlineData("pl", "Zlecenie", "0,939")]
    [InlineData("en", "Job", "0.939")]
    public async Task The_demo_speaks_the_language_of_the_terminal_and_answers_machines_in_English(
        string language,
        string job,
        string barometer
    )
    {
        desk.Tongue = AllTongues.Named(language)!;
        var said = await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        Assert.StartsWith(job, said.TrimStart(), StringComparison.OrdinalIgnoreCase);
        Assert.Contains(barometer, said, StringComparison.Ordinal);
        Assert.Contains(
            $"lang=\"{language}\"",
            await System.IO.File.ReadAllTextAsync(desk.File("card.html"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        var machine = await desk.JsonAsync("job", "findings", "1");
        Assert.Contains("of the label charge", machine.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_language_asked_for_once_is_kept_and_another_one_takes_its_place()
    {
        Assert.Contains(
            "Kein Auftrag",
            await desk.DoneAsync("job", "list", "--language", "de"),
            StringComparison.OrdinalIgnoreCase
        );
        Assert.Contains("Kein Auftrag", await desk.DoneAsync("job", "list"), StringComparison.OrdinalIgnoreCase);
        await desk.DoneAsync("job", "list", "--language", "en");
        Assert.DoesNotContain("Auftrag", await desk.DoneAsync("job", "list"), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_refusal_is_said_in_the_language_of_who_typed()
    {
        desk.Tongue = AllTongues.Named("pl")!;
        var answer = await desk.RunAsync(["job", "show", "7"]);
        Assert.Equal(1, answer.Code);
        Assert.Matches("[ąćęłńóśźż]", answer.Trouble);
        desk.Tongue = AllTongues.Named("de")!;
        await desk.DoneAsync("car", "new", "label=grauer Kombi", "refrigerant=R-134a", "label-charge=0,55 kg");
        Assert.Contains("550 g", await desk.DoneAsync("car", "list"), StringComparison.Ordinal);
        var doubtful = await desk.RunAsync(["car", "new", "label=zwei", "refrigerant=R-134a", "label-charge=1.013 g"]);
        Assert.Equal(1, doubtful.Code);
        Assert.Contains("1.013", doubtful.Trouble, StringComparison.Ordinal);
    }
}
