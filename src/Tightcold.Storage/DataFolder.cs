using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Storage;

/// <summary>Where the data file is: the folder asked for, else TIGHTCOLD_DATA, else the user's data folder.</summary>
public static class DataFolder
{
    public const string Variable = "TIGHTCOLD_DATA";
    public const string FileName = "tightcold.db";

    public static string Resolve(string? asked)
    {
        if (!string.IsNullOrWhiteSpace(asked))
            return Path.GetFullPath(asked);
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } variable)
            return Path.GetFullPath(variable);
        return Own;
    }

    /// <summary>The user's own data folder.</summary>
    public static string Own
    {
        get
        {
            // LocalApplicationData follows XDG_DATA_HOME on Linux and its own habit elsewhere.
            var home = Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            );
            return Path.Combine(home.Length > 0 ? home : Path.GetFullPath("."), "tightcold");
        }
    }

    /// <summary>Makes the folder if it is not there. Names and places are the person's own: a new one is open to nobody
    /// else.</summary>
    public static void Make(string folder)
    {
        try
        {
            if (OperatingSystem.IsWindows())
                Directory.CreateDirectory(folder);
            else
                Directory.CreateDirectory(
                    folder,
                    UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
                );
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                Phrase.Of($"The data folder {Phrase.Verbatim(folder)} cannot be made; choose another with --data."),
                trouble
            );
        }
    }

    public static string DataFile(string folder) => Path.Combine(folder, FileName);
}
