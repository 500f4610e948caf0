using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;

namespace Tightcold.Trials;

/// <summary>The program as its own process.</summary>
internal static class RealProgram
{
    /// <summary>A packaged program to try instead of the one built here: it starts in a third of the time.</summary>
    private static readonly string? Packaged = Environment.GetEnvironmentVariable("TIGHTCOLD_PROGRAM");

    public static Process Start(string data, params ReadOnlySpan<string> words)
    {
        var start = new ProcessStartInfo(Packaged ?? "dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        if (Packaged is null)
            start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "tightcold.dll"));
        foreach (var word in words)
            start.ArgumentList.Add(word);
        start.ArgumentList.Add("--data");
        start.ArgumentList.Add(data);
        return Process.Start(start)!;
    }

    /// <summary>Runs it to its end.</summary>
    public static async Task<(int Code, string Said)> RunAsync(string data, params string[] words)
    {
        using var program = Start(data, words);
        program.StandardInput.Close();
        var trouble = program.StandardError.ReadToEndAsync();
        var said = await program.StandardOutput.ReadToEndAsync().ConfigureAwait(false);
        await program.WaitForExitAsync().ConfigureAwait(false);
        return (program.ExitCode, said + await trouble.ConfigureAwait(false));
    }

    /// <summary>The site, up to the moment at which it answers.</summary>
    public static async Task<RunningSite> ServeAsync(string data)
    {
        var program = Start(data, "serve", "--port", "0", "--json");
        var trouble = program.StandardError.ReadToEndAsync();
        var text = "";
        while (await program.StandardOutput.ReadLineAsync().ConfigureAwait(false) is { } line)
        {
            text += line;
            if (line != "}")
                continue;
            var answer = JsonNode.Parse(text)!;
            return new(
                program,
                new Uri(answer["address"]!.ToString()),
                new Uri(answer["owner-link"]!.ToString()),
                trouble
            );
        }
        throw new InvalidOperationException("the site ended: " + await trouble.ConfigureAwait(false));
    }
}

/// <summary>The real site as a process of its own.</summary>
internal sealed record RunningSite(Process Program, Uri Address, Uri OwnerLink, Task<string> Trouble)
{
    /// <summary>A browser of the owner: the first opens the link of the terminal, others bring its key.</summary>
    public async Task<CookieContainer> KeyAsync()
    {
        var cookies = new CookieContainer();
        using var client = Client(cookies);
        using var answer = await client.GetAsync(OwnerLink).ConfigureAwait(false);
        return answer.StatusCode == HttpStatusCode.Found
            ? cookies
            : throw new InvalidOperationException($"the owner's link answered {(int)answer.StatusCode}");
    }

    public HttpClient Client(CookieContainer cookies) =>
        new(
            new HttpClientHandler
            {
                AllowAutoRedirect = false,
                CookieContainer = cookies,
                UseProxy = false,
            }
        )
        {
            BaseAddress = Address,
            Timeout = TimeSpan.FromMinutes(10),
        };

    /// <summary>Another browser with the same key: its form cookie is its own.</summary>
    public CookieContainer SameKey(CookieContainer owner)
    {
        var cookies = new CookieContainer();
        cookies.Add(Address, new Cookie("tightcold-owner", owner.GetCookies(Address)["tightcold-owner"]!.Value));
        return cookies;
    }
}
