using System.Collections.Immutable;
using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;

namespace Tightcold.Injected;

/// <summary>
/// A copy of the sources with every fault in it, built once: each stands behind a switch, and a test program is told by its
/// surroundings which one is on. To build anew for each of a hundred faults would take a day.
/// </summary>
internal sealed class FaultyCopy(string root, string folder)
{
    private static readonly ImmutableArray<string> LeftOut = ["artifacts", "bin", "obj", ".git", "TestResults"];

    /// <summary>Of what is built: a fault that survived may be caught by other tests.</summary>
    public string Digest { get; private set; } = "";

    public string ProgramOf(Look look) =>
        Path.Combine(folder, "artifacts", "bin", look.Program, "release", look.Program);

    /// <summary>What does not fit, in sentences; nothing is written then.</summary>
    public IReadOnlyList<string> Problems(ImmutableArray<Fault> faults)
    {
        var problems = new List<string>();
        foreach (var group in faults.GroupBy(fault => fault.File))
            if (File.Exists(Path.Combine(root, group.Key)))
                FaultyText.Of(File.ReadAllText(Path.Combine(root, group.Key)), group, problems);
            else
                problems.AddRange(group.Select(fault => $"{fault.Room} {fault.Id}: {fault.File} is not there."));
        return problems;
    }

    public void Make(ImmutableArray<Fault> faults)
    {
        var byFile = faults.ToLookup(fault => fault.File);
        using var sum = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var kept = new HashSet<string>(StringComparer.Ordinal);
        foreach (var file in Files(root).Order(StringComparer.Ordinal))
        {
            var bytes = File.ReadAllBytes(Path.Combine(root, file));
            if (byFile[file].Any())
                bytes = Encoding.UTF8.GetBytes(FaultyText.Of(Encoding.UTF8.GetString(bytes), byFile[file], []));
            else if (file == "Directory.Build.props")
                bytes = Encoding.UTF8.GetBytes(Loosened(Encoding.UTF8.GetString(bytes)));
            Put(file, bytes);
            kept.Add(file);
            // What is built and what the tests read; not a document, not a tool, not this one.
            if (
                !file.StartsWith("docs/", StringComparison.Ordinal)
                && !file.StartsWith("tools/", StringComparison.Ordinal)
            )
            {
                sum.AppendData(Encoding.UTF8.GetBytes(file));
                sum.AppendData(bytes);
            }
        }
        Put("Injected.cs", File.ReadAllBytes(Path.Combine(root, "tools", "Tightcold.Injected", "Switch.txt")));
        Put("Injected.slnx", Encoding.UTF8.GetBytes(Solution(faults)));
        kept.UnionWith(["Injected.cs", "Injected.slnx"]);
        foreach (var file in Files(folder).Where(file => !kept.Contains(file)).ToArray())
            File.Delete(Path.Combine(folder, file));
        Digest = Convert.ToHexStringLower(sum.GetHashAndReset())[..12];
    }

    public async Task<bool> BuildAsync()
    {
        var mark = Path.Combine(folder, "artifacts", "built");
        if (File.Exists(mark) && File.ReadAllText(mark) == Digest)
            return true;
        var start = new ProcessStartInfo("dotnet") { WorkingDirectory = folder };
        foreach (var word in new[] { "build", "Injected.slnx", "-c", "Release", "-nologo", "-v", "quiet", "-nr:false" })
            start.ArgumentList.Add(word);
        using var build = Process.Start(start)!;
        await build.WaitForExitAsync().ConfigureAwait(false);
        if (build.ExitCode != 0)
            return false;
        File.WriteAllText(mark, Digest);
        return true;
    }

    // Only what changed is written, so that the next build compiles only that.
    private void Put(string file, byte[] bytes)
    {
        var target = Path.Combine(folder, file);
        if (File.Exists(target) && File.ReadAllBytes(target).AsSpan().SequenceEqual(bytes))
            return;
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        File.WriteAllBytes(target, bytes);
        if (!OperatingSystem.IsWindows() && File.Exists(Path.Combine(root, file)))
            File.SetUnixFileMode(target, File.GetUnixFileMode(Path.Combine(root, file)));
    }

    private static IEnumerable<string> Files(string from)
    {
        var waiting = new Stack<string>([from]);
        while (waiting.TryPop(out var place))
        {
            foreach (var sub in Directory.EnumerateDirectories(place))
                if (!LeftOut.Contains(Path.GetFileName(sub)))
                    waiting.Push(sub);
            foreach (var file in Directory.EnumerateFiles(place))
                // In a second working tree this is a file.
                if (Path.GetFileName(file) != ".git")
                    yield return Path.GetRelativePath(from, file).Replace('\\', '/');
        }
    }

    // A faulty source need not please an analyser, nor be documented.
    private static string Loosened(string props) =>
        props.Replace(
            "</Project>",
            """
              <PropertyGroup>
                <TreatWarningsAsErrors>false</TreatWarningsAsErrors>
                <RunAnalyzers>false</RunAnalyzers>
                <EnforceCodeStyleInBuild>false</EnforceCodeStyleInBuild>
                <GenerateDocumentationFile>false</GenerateDocumentationFile>
                <WarningLevel>0</WarningLevel>
              </PropertyGroup>
              <ItemGroup Condition="$(MSBuildProjectDirectory.Replace('\','/').StartsWith('$(MSBuildThisFileDirectory.Replace('\','/'))src/'))">
                <Compile Include="$(MSBuildThisFileDirectory)Injected.cs" Link="Injected.cs" />
              </ItemGroup>
            </Project>
            """,
            StringComparison.Ordinal
        );

    private static string Solution(ImmutableArray<Fault> faults) =>
        string.Concat([
            "<Solution>\n",
            .. faults
                .SelectMany(fault => fault.Sees)
                .Select(look => look.Program)
                .Distinct()
                .Order(StringComparer.Ordinal)
                .Select(program => $"  <Project Path=\"tests/{program}/{program}.csproj\" />\n"),
            "</Solution>\n",
        ]);
}
