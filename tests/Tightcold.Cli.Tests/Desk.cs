using System.Text.Json.Nodes;
using Microsoft.Extensions.Time.Testing;
using Spectre.Console.Testing;
using Tightcold.App.Desk;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;
using Tightcold.Tongues;

namespace Tightcold.Cli.Tests;

/// <summary>The whole program on a data folder of its own, with a clock that the test sets.</summary>
public sealed class Desk : IDisposable
{
    public static readonly DateTimeOffset Morning = new(2031, 7, 4, 9, 0, 0, TimeSpan.Zero);

    public string Folder { get; } = Directory.CreateTempSubdirectory("tightcold-test-").FullName;
    public FakeTimeProvider Clock { get; private set; } = new(Morning) { AutoAdvanceAmount = TimeSpan.FromSeconds(1) };

    /// <summary>What the terminal speaks.</summary>
    public Tongue Tongue { get; set; } = AllTongues.English;

    public string File(string name) => Path.Combine(Folder, name);

    /// <summary>Another clock, as after a flat battery.</summary>
    public void SetClock(DateTimeOffset now) =>
        Clock = new FakeTimeProvider(now) { AutoAdvanceAmount = TimeSpan.FromSeconds(1) };

    public async Task<Answer> RunAsync(
        string[] arguments,
        string input = "",
        int width = 4000,
        CancellationToken? stop = null,
        TextReader? reader = null
    )
    {
        using var console = new TestConsole().Width(width);
        using var trouble = new TestConsole().Width(width);
        using var typed = new StringReader(input);
        var code = await CommandLine.RunAsync(
            arguments.Contains("--data") ? arguments : [.. arguments, "--data", Folder],
            new Surroundings(console, trouble, reader ?? typed, Clock, new RandomIds()) { Tongue = Tongue },
            stop ?? TestContext.Current.CancellationToken
        );
        return new(code, console.Output, trouble.Output);
    }

    public async Task<string> DoneAsync(params string[] arguments)
    {
        var answer = await RunAsync(arguments);
        Assert.True(
            answer.Code == 0,
            $"tightcold {string.Join(' ', arguments)} ended with {answer.Code}: {answer.Trouble}{answer.Out}"
        );
        return answer.Out;
    }

    public async Task<JsonNode> JsonAsync(params string[] arguments) =>
        JsonNode.Parse(await DoneAsync([.. arguments, "--json"]))!;

    /// <summary>The input is refused: code 1, one sentence, and nothing in the journal has changed.</summary>
    public async Task RefusedAsync(string because, params string[] arguments)
    {
        var before = await StateAsync();
        var answer = await RunAsync(arguments);
        Assert.Equal(1, answer.Code);
        Assert.Equal("", answer.Out);
        var sentence = Assert.Single(answer.Trouble.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains(because, sentence, StringComparison.Ordinal);
        Assert.EndsWith(".", sentence.TrimEnd(), StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", answer.Trouble, StringComparison.Ordinal);
        Assert.Equal(before, await StateAsync());
    }

    /// <summary>A car, a can and job 1.</summary>
    public async Task OpenJobAsync()
    {
        await DoneAsync("car", "new", "label=blue estate", "refrigerant=R-134a", "label-charge=680 g");
        await DoneAsync(
            "kit",
            "add-container",
            "name=A",
            "kind=can",
            "refrigerant=R-134a",
            "tare=138 g",
            "gross-now=478 g"
        );
        await DoneAsync("job", "new", "blue estate", "blows warm");
    }

    /// <summary>Everything the program knows, as text.</summary>
    private async Task<string> StateAsync()
    {
        var kit = (await JsonAsync("kit", "show"))["kit"]!.AsObject();
        // A kit that nobody described holds from whenever it is asked for.
        if (kit["id"]!.ToString() == Guid.Empty.ToString())
            kit.Remove("from");
        var text = await DoneAsync("car", "list", "--json") + kit.ToJsonString();
        foreach (var job in (await JsonAsync("job", "list"))["jobs"]!.AsArray())
            text += await DoneAsync("job", "export", job!["number"]!.ToString());
        return text;
    }

    public void Dispose()
    {
        JobStore.Release();
        Directory.Delete(Folder, recursive: true);
    }
}

public sealed record Answer(int Code, string Out, string Trouble);
