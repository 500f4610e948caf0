using System.Collections.Concurrent;
using System.Text;

namespace Tightcold.Cli.Wiring;

/// <summary>Files that a person names. Text comes in as UTF-8 or not at all; what is written appears whole or not at
/// all.</summary>
internal static class Files
{
    /// <summary>Begun and not finished: deleted when the program is stopped in between.</summary>
    private static readonly ConcurrentDictionary<string, bool> Unfinished = new(StringComparer.Ordinal);

    public static void CheckInput(string field, string path)
    {
        if (path is "-" or Surroundings.StandardInput)
            return;
        if (path.Length == 0)
            throw new RefusedException(field, "", "the name of a file is needed here");
        if (Directory.Exists(path))
            throw new RefusedException(field, path, "that is a folder; the name of a file is needed here");
        if (!File.Exists(path))
            throw new RefusedException(field, path, "there is no such file");
    }

    public static void CheckOutput(string field, string path)
    {
        if (path.Trim().Length == 0 || path.Contains('\0', StringComparison.Ordinal))
            throw new RefusedException(field, "", "the name of a file is needed here");
        if (Directory.Exists(path) || Path.EndsInDirectorySeparator(path))
            throw new RefusedException(field, path, "that is a folder; the name of a file is needed here");
        var folder = Path.GetDirectoryName(Path.GetFullPath(path));
        if (folder is not null && !Directory.Exists(folder))
            throw new RefusedException(field, path, "the folder for it is not there; make it first");
    }

    /// <summary>The whole text of a file, or of standard input. What is not UTF-8 is refused rather than read wrong: a
    /// degree sign would be lost.</summary>
    public static async Task<string> ReadAsync(
        string field,
        string path,
        Surroundings surroundings,
        CancellationToken cancellation
    )
    {
        if (path is "-" or Surroundings.StandardInput)
            return await surroundings.In.ReadToEndAsync(cancellation).ConfigureAwait(false);
        CheckInput(field, path);
        var bytes = await File.ReadAllBytesAsync(path, cancellation).ConfigureAwait(false);
        if (bytes.AsSpan().StartsWith("PK\u0003\u0004"u8))
            throw new RefusedException(
                field,
                path,
                "that is a workbook or an archive; save the sheet as CSV in UTF-8 first"
            );
        using var stream = new MemoryStream(bytes);
        using var reader = new StreamReader(stream, new UTF8Encoding(false, throwOnInvalidBytes: true));
        try
        {
            // A mark at the beginning of the file tells UTF-16, as some spreadsheets save.
            return await reader.ReadToEndAsync(cancellation).ConfigureAwait(false);
        }
        catch (DecoderFallbackException)
        {
            throw new RefusedException(
                field,
                path,
                $"line {BadLine(bytes)} is not written in UTF-8 (perhaps in Latin-1); save the file as UTF-8 first"
            );
        }
    }

    public static async Task WriteAsync(string field, string path, string text, CancellationToken cancellation)
    {
        CheckOutput(field, path);
        var utf8 = new UTF8Encoding(false);
        if (IsDevice(path))
        {
            await File.WriteAllTextAsync(path, text, utf8, cancellation).ConfigureAwait(false);
            return;
        }
        using var unfinished = Begin(path);
        await File.WriteAllTextAsync(unfinished.Beside, text, utf8, cancellation).ConfigureAwait(false);
        cancellation.ThrowIfCancellationRequested();
        unfinished.Finish();
    }

    /// <summary>A file that is written beside the one it will become.</summary>
    public static UnfinishedFile Begin(string path)
    {
        // What a link points at is replaced, not the link.
        var named = new FileInfo(path);
        var target = (named.LinkTarget is null ? null : named.ResolveLinkTarget(returnFinalTarget: true)?.FullName)
            ?? named.FullName;
        var beside = Path.Combine(
            Path.GetDirectoryName(target)!,
            $".{Path.GetFileName(target)}.{Guid.NewGuid().ToString("N")[..8]}.unfinished"
        );
        Unfinished[beside] = true;
        return new(target, beside);
    }

    /// <summary>A folder that goes when the command ends, however it ends.</summary>
    public static DirectoryInfo Stage(string name)
    {
        var folder = Directory.CreateTempSubdirectory(name);
        Unfinished[folder.FullName] = true;
        return folder;
    }

    /// <summary>Before a program that was stopped goes: nothing half done stays behind.</summary>
    public static void DropUnfinished()
    {
        foreach (var path in Unfinished.Keys)
            Drop(path);
    }

    public static void Drop(string path)
    {
        Unfinished.TryRemove(path, out _);
        try
        {
            if (Directory.Exists(path))
                Directory.Delete(path, recursive: true);
            else
                File.Delete(path);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // Somebody still holds it; it is named so that a person sees what it is.
        }
    }

    private static bool IsDevice(string path) =>
        !OperatingSystem.IsWindows()
        && (path.StartsWith("/dev/", StringComparison.Ordinal) || path.StartsWith("/proc/", StringComparison.Ordinal));

    private static int BadLine(byte[] bytes)
    {
        var line = 1;
        for (var at = 0; at < bytes.Length; )
        {
            if (Rune.DecodeFromUtf8(bytes.AsSpan(at), out _, out var used) != System.Buffers.OperationStatus.Done)
                return line;
            if (bytes[at] == '\n')
                line++;
            at += used;
        }
        return line;
    }
}

/// <summary>Becomes its file at once when it is finished, and nothing when it is not.</summary>
internal sealed record UnfinishedFile(string Target, string Beside) : IDisposable
{
    public void Finish() => File.Move(Beside, Target, overwrite: true);

    public void Dispose() => Files.Drop(Beside);
}
