using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands.Shell;

internal sealed class CompletionSettings : DeskSettings
{
    [CommandArgument(0, "<SHELL>")]
    [Description("Which shell.")]
    [Choices("bash", "zsh", "fish", "powershell")]
    public string Shell { get; init; } = "";
}

/// <summary>Prints a few lines for a shell that ask this program at the Tab key what may follow.</summary>
internal sealed class CompletionCommand(Surroundings surroundings) : Command<CompletionSettings>
{
    public override Task<int> ExecuteAsync(CompletionSettings settings, CancellationToken cancellation)
    {
        var script = ShellScripts.For(settings.Shell);
        if (settings.Json)
            Page.Machine(surroundings.Out, new JsonObject { ["shell"] = settings.Shell, ["script"] = script });
        else
            Page.Raw(surroundings.Out, script);
        return Task.FromResult(ExitCode.Done);
    }
}

/// <summary>The scripts. Each hands the words up to the cursor to <c>tightcold complete</c>, one answer a
/// line.</summary>
internal static class ShellScripts
{
    public static string For(string shell) =>
        shell switch
        {
            "bash" => Bash,
            "zsh" => Zsh,
            "fish" => Fish,
            _ => PowerShell,
        };

    // Bash breaks words at “=”; they are put together again, and what stands before the last “=” is left out of the
    // answers, because bash replaces only what follows it. Files complete where nothing else is known.
    private const string Bash = """
        _tightcold() {
            local line=${COMP_LINE:0:COMP_POINT} word words=() current answer
            while read -r -d '' word; do words+=("$word"); done < <(printf '%s' "$line" | xargs printf '%s\0' 2>/dev/null)
            [[ $line == *[[:space:]] ]] && words+=("")
            current=${words[${#words[@]}-1]}
            COMPREPLY=()
            while IFS= read -r answer; do
                [[ $current == *=* ]] && answer=${answer#*=}
                COMPREPLY+=("$(printf '%q' "$answer")")
            done < <("${words[0]}" complete "${words[@]:1}" 2>/dev/null)
            for answer in "${!COMPREPLY[@]}"; do COMPREPLY[answer]=${COMPREPLY[answer]//\\=/=}; done
            [[ ${COMPREPLY[0]} == *= ]] && compopt -o nospace
            return 0
        }
        complete -o default -F _tightcold tightcold ./tightcold

        """;

    private const string Zsh = """
        #compdef tightcold
        _tightcold() {
            local -a answers
            answers=("${(@f)$(${words[1]} complete "${(@Q)words[2,CURRENT]}" 2>/dev/null)}")
            answers=(${answers:#})
            if (( ${#answers} )); then
                if [[ ${answers[1]} == *= ]]; then compadd -S '' -- $answers; else compadd -- $answers; fi
            else
                _files
            fi
        }
        compdef _tightcold tightcold

        """;

    private const string Fish = """
        function __tightcold_complete
            set -l words (commandline -opc) (commandline -ct)
            $words[1] complete $words[2..-1] 2>/dev/null
        end
        complete -c tightcold -a '(__tightcold_complete)'

        """;

    private const string PowerShell = """
        Register-ArgumentCompleter -Native -CommandName tightcold -ScriptBlock {
            param($word, $command, $cursor)
            $words = @($command.CommandElements | Select-Object -Skip 1 |
                Where-Object { $_.Extent.StartOffset -lt $cursor } | ForEach-Object { $_.ToString().Trim('"', "'") })
            if ($word -eq '') { $words += '""' }
            & $command.CommandElements[0].ToString() complete @words 2>$null | ForEach-Object {
                $text = if ($_ -match ' ') { "`"$_`"" } else { $_ }
                [System.Management.Automation.CompletionResult]::new($text, $_, 'ParameterValue', $_)
            }
        }

        """;
}
