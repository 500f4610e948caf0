namespace Tightcold.Storage.Tests;

/// <summary>A data folder of one test.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("tightcold-test-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose()
    {
        JobStore.Release();
        Directory.Delete(Path, recursive: true);
    }
}
