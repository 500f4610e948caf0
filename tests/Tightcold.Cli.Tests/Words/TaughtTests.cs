namespace Tightcold.Cli.Tests.Words;

/// <summary>Help, completion and the manual page, made from one description.</summary>
public sealed class TaughtTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task Help_teaches_fields_and_choices()
    {
        var car = await HelpAsync("car", "new", "--help");
        Assert.Contains("label-charge=…", car, StringComparison.Ordinal);
        Assert.Contains("one of R-134a, R-1234yf", car, StringComparison.Ordinal);
        Assert.Contains("needed", car, StringComparison.Ordinal);
        Assert.Contains(
            "psig",
            await HelpAsync("job", "add", "1", "standing-reading", "--help"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "One of open, waiting, closed.",
            await HelpAsync("job", "list", "--help"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Every_command_has_a_help_that_says_what_each_word_means()
    {
        var all = await HelpAsync("--help");
        foreach (var path in Wiring.CommandLine.Commands)
        {
            Assert.Contains(path, all, StringComparison.Ordinal);
            var help = await HelpAsync([.. path.Split(' '), "--help"]);
            Assert.Contains($"tightcold {path}", help, StringComparison.Ordinal);
            // No word and no option without its meaning.
            Assert.DoesNotMatch(@"(?m)^  (--|<|\[)\S+( <\S+>)?\s*$", help);
        }
    }

    [Theory]
    [InlineData("job ad", "add")]
    [InlineData("comp", "completion")]
    [InlineData("job list --st", "--state")]
    [InlineData("job list --state w", "waiting")]
    [InlineData("job add 1 standing", "standing-reading")]
    [InlineData("job add 1 standing-reading hi", "high-side=")]
    [InlineData("job add 1 leak-check test=so", "test=soap bubbles")]
    [InlineData("car new refrigerant=R-12", "refrigerant=R-1234yf")]
    [InlineData("oil conden", "condenser")]
    [InlineData("oil condenser rec", "receiver-drier")]
    [InlineData("completion f", "fish")]
    public async Task The_Tab_key_knows_what_may_follow(string typed, string expected)
    {
        var answers = (await CompleteAsync(typed.Split(' '))).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal([expected], answers);
    }

    private static async Task<string> CompleteAsync(string[] words)
    {
        using var program = RealProgram.Start(["complete", .. words]);
        program.StandardInput.Close();
        var said = await program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, program.ExitCode);
        return said;
    }

    [Theory]
    [InlineData("tightcold job li", "list")]
    [InlineData("tightcold job list --state w", "waiting")]
    [InlineData("tightcold job add 1 standing-reading hi", "high-side=")]
    [InlineData("tightcold car new refrigerant=R-13", "R-134a")]
    public async Task Bash_completes_with_what_is_printed_for_it(string line, string expected)
    {
        var program = await InstalledAsync();
        var script = await desk.DoneAsync("completion", "bash");
        var asked = await RealProgram.RunAsync(
            "bash",
            $"PATH={program}:$PATH\n{script}\ncompopt() {{ :; }}\nCOMP_LINE='{line}'; COMP_POINT=${{#COMP_LINE}}\n"
                + "_tightcold\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n"
        );
        Assert.SkipWhen(asked is null, "bash is not installed");
        Assert.Equal("", asked!.Trouble);
        Assert.Equal(expected, asked.Out.Trim());
    }

    [Fact]
    public async Task Fish_completes_with_what_is_printed_for_it()
    {
        var program = await InstalledAsync();
        var script = await desk.DoneAsync("completion", "fish");
        var asked = await RealProgram.RunAsync(
            "fish",
            $"set PATH {program} $PATH\n{script}\ncomplete -C 'tightcold job li'\n"
        );
        Assert.SkipWhen(asked is null, "fish is not installed");
        Assert.Equal("list", asked!.Out.Trim());
    }

    [Theory]
    [InlineData("zsh", "zsh", "-n")]
    [InlineData("bash", "bash", "-n")]
    public async Task A_shell_finds_nothing_wrong_with_its_script(string shell, string program, string option)
    {
        var asked = await RealProgram.RunAsync(program, await desk.DoneAsync("completion", shell), option);
        Assert.SkipWhen(asked is null, $"{program} is not installed");
        Assert.Equal("", asked!.Trouble);
        Assert.Equal(0, asked.Code);
    }

    [Fact]
    public async Task PowerShell_gets_a_completer_for_a_program()
    {
        var script = await desk.DoneAsync("completion", "powershell");
        Assert.Contains("Register-ArgumentCompleter -Native -CommandName tightcold", script, StringComparison.Ordinal);
        Assert.Equal(script.Count(letter => letter == '{'), script.Count(letter => letter == '}'));
        var asked = await RealProgram.RunAsync("pwsh", script + "\n", "-NoProfile", "-Command", "-");
        Assert.True(asked is null || asked.Code == 0, asked?.Trouble);
    }

    [Fact]
    public async Task The_manual_page_holds_every_command_and_reads_without_a_complaint()
    {
        var page = await desk.DoneAsync("man");
        await desk.DoneAsync("man", "--to", desk.File("tightcold.1"));
        Assert.Equal(
            page,
            await File.ReadAllTextAsync(desk.File("tightcold.1"), TestContext.Current.CancellationToken)
        );
        foreach (var path in Wiring.CommandLine.Commands)
            Assert.Contains(
                $".SS {path.Replace("-", "\\-", StringComparison.Ordinal)}\n",
                page,
                StringComparison.Ordinal
            );
        var set = await RealProgram.RunAsync("groff", page, "-man", "-ww", "-Kutf8", "-Tutf8");
        Assert.SkipWhen(set is null, "groff is not installed");
        Assert.Equal("", set!.Trouble);
        Assert.Contains("standing", set.Out, StringComparison.Ordinal);
    }

    /// <summary>A folder with the program under its own name, as a person has it.</summary>
    private async Task<string> InstalledAsync()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "these shells are tried on other systems");
        var program = desk.File("tightcold");
        await File.WriteAllTextAsync(
            program,
            $"#!/bin/sh\nexec dotnet '{Path.Combine(AppContext.BaseDirectory, "tightcold.dll")}' \"$@\"\n",
            TestContext.Current.CancellationToken
        );
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(program, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        return desk.Folder;
    }

    private async Task<string> HelpAsync(params string[] words)
    {
        var answer = await desk.RunAsync(words);
        Assert.Equal(0, answer.Code);
        Assert.Equal("", answer.Trouble);
        return answer.Out;
    }
}
