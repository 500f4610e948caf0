using System.Text;
using Tightcold.App.Diagnosing;
using Tightcold.Fuzz;
using Tightcold.Jobs.Json;

namespace Tightcold.App.Tests.Importing;

/// <summary>Files that somebody else wrote, as the fuzzer of the folder fuzz breeds them: its seeds, everything that it
/// ever found, and some thousand changed copies of them, the same at every run.</summary>
public sealed class ImporterTests
{
    private const int CopiesOfEach = 400;

    private static readonly string Folder = Path.Combine(Root(), "fuzz");

    public static TheoryData<string> Names => [.. Importers.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void An_importer_takes_a_file_in_or_refuses_it_in_words_whatever_it_says(string name)
    {
        var files = new[] { "seeds", "found" }
            .Select(kind => Path.Combine(Folder, kind, name))
            .Where(Directory.Exists)
            .SelectMany(Directory.GetFiles)
            .Order(StringComparer.Ordinal)
            .ToList();
        Assert.True(files.Count >= 2);
        var importer = Importers.Find(name);
        var chance = new Random(20310704);
        var pieces = File.ReadAllLines(Path.Combine(Folder, name is "job" or "readings" ? "json.dict" : "csv.dict"))
            .Select(Token)
            .ToArray();
        foreach (var file in files)
        {
            var seed = File.ReadAllBytes(file);
            Try(importer, seed, file);
            for (var i = 0; i < CopiesOfEach; i++)
                Try(importer, Changed(seed, chance, pieces), $"a copy of {file}");
        }
    }

    [Theory]
    [InlineData("{\"complaint\":\"\\ud800\",\"entries\":[]}", "half of a character")]
    [InlineData("{\"complaint\":\"\\udc00\\ud800\",\"entries\":[]}", "half of a character")]
    [InlineData("{\"\\ud800\":1}", "half of a character")]
    [InlineData("{\"complaint\":\"\\ud83d\\ude97\",\"complaint\":\"x\"}", "each field stands once")]
    [InlineData("{\"complaint\":\"\\\\ud800\",", "broken or cut short")]
    public void Half_a_character_or_a_field_that_stands_twice_is_refused_in_words_where_the_parser_would_fail_later(
        string text,
        string words
    )
    {
        foreach (var problems in new[] { JobDocument.Read(text).Problems, ReadingsFile.Read(text).Problems })
            Assert.Contains(words, Assert.Single(problems).Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_character_written_in_two_halves_is_one_and_taken_in()
    {
        var (record, problems) = ReadingsFile.Read(
            "{\"car\":{\"refrigerant\":\"R-134a\"},\"entries\":[{\"kind\":\"note\",\"text\":\"\\ud83d\\ude97 \\\\ud800\"}]}"
        );
        Assert.Empty(problems);
        Assert.Equal("\U0001F697 \\ud800", record!.Journal.All[0].Fields.Text("text"));
    }

    private static void Try(Action<byte[]> importer, byte[] bytes, string what)
    {
        try
        {
            importer(bytes);
        }
        catch (Exception trouble)
        {
            throw new InvalidOperationException($"{what}: {Encoding.UTF8.GetString(bytes)}", trouble);
        }
    }

    /// <summary>One to four changes: a bit, a byte, a cut, a doubled part, a word of the format.</summary>
    private static byte[] Changed(byte[] seed, Random chance, byte[][] pieces)
    {
        var bytes = new List<byte>(seed);
        for (var changes = chance.Next(1, 5); changes > 0 && bytes.Count > 0; changes--)
        {
            var at = chance.Next(bytes.Count);
            var length = Math.Min(chance.Next(1, 40), bytes.Count - at);
            switch (chance.Next(5))
            {
                case 0:
                    bytes[at] ^= (byte)(1 << chance.Next(8));
                    break;
                case 1:
                    bytes[at] = (byte)chance.Next(256);
                    break;
                case 2:
                    bytes.RemoveRange(at, length);
                    break;
                case 3:
                    bytes.InsertRange(chance.Next(bytes.Count), bytes.GetRange(at, length));
                    break;
                default:
                    bytes.InsertRange(at, pieces[chance.Next(pieces.Length)]);
                    break;
            }
        }
        return [.. bytes];
    }

    /// <summary>A line of a fuzzer's dictionary: quoted, with \x22 for a byte and \\ for a backslash.</summary>
    private static byte[] Token(string line)
    {
        var bytes = new List<byte>();
        var text = line[1..^1];
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\' && text[i + 1] == 'x')
            {
                bytes.Add(Convert.ToByte(text.Substring(i + 2, 2), 16));
                i += 3;
            }
            else if (text[i] == '\\')
                bytes.Add((byte)text[++i]);
            else
                bytes.Add((byte)text[i]);
        }
        return [.. bytes];
    }

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx")))
                return folder.FullName;
        throw new InvalidOperationException("the tests do not stand inside the tree");
    }
}
