using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;

namespace Tightcold.App.Tests.Importing;

/// <summary>Every field of every form at every length, typed and from a file: taken whole, or refused in a sentence that
/// names it.</summary>
public sealed class FieldLengthTests
{
    /// <summary>Beyond what any field but a note takes.</summary>
    private const int Beyond = 130;

    /// <summary>A letter, a digit, one of two bytes, one of two halves, a mark on the letter before, a break.</summary>
    private static readonly string[] Letters = ["x", "9", "é", "🚗", "e\u0301", "\n", " "];

    private static readonly Schema[] Schemas = [Car.Schema, Kit.Schema, Container.Schema, .. EntryKinds.All];

    private static IEnumerable<string> Texts(FieldSpec field)
    {
        var longest = field.Type is FieldType.Text text ? text.MaxLength : 0;
        foreach (var letter in Letters)
        {
            for (var length = 1; length <= Beyond; length++)
                yield return Of(letter, length);
            if (longest + 30 > Beyond)
                for (var length = Math.Max(Beyond, longest - 30); length <= longest + 30; length++)
                    yield return Of(letter, length);
        }
        yield return Of("x", 100_000);
    }

    private static string Of(string letter, int length) =>
        string.Concat(Enumerable.Repeat(letter, length / letter.Length + 1))[
            ..(length - (letter == "🚗" ? length % 2 : 0))
        ];

    [Fact]
    public void A_typed_text_of_any_length_is_taken_whole_or_refused_in_a_sentence()
    {
        var tried = 0;
        foreach (var schema in Schemas)
        foreach (var field in schema.Fields)
        foreach (var text in Texts(field))
        {
            var (bag, problems) = FieldReader.Read(
                schema,
                new Dictionary<string, string> { [field.Name] = text },
                CultureInfo.InvariantCulture
            );
            Judge(field, text.Trim(), bag, [.. problems.Where(problem => problem.Field == field.Name)]);
            tried++;
        }
        Assert.True(tried > 50_000, $"{tried} texts");
    }

    [Fact]
    public void A_text_of_any_length_in_a_file_is_taken_whole_or_refused_in_a_sentence()
    {
        foreach (var schema in Schemas)
        foreach (var field in schema.Fields.Where(field => field.Type is not (FieldType.Quantity or FieldType.Number)))
        foreach (var text in Texts(field))
        {
            var (bag, problems) = JobDocument.ReadFields(new JsonObject { [field.Name] = text }.ToJsonString(), schema);
            var own = problems.Where(problem => problem.Field == "$." + field.Name).ToList();
            Judge(field, text, bag ?? FieldBag.Empty.With(field.Name, new FieldValue.Text(text)), own);
        }
    }

    [Fact]
    public void Nine_to_nineteen_characters_too_many_for_a_short_field_are_told_and_not_fallen_over()
    {
        var currency = EntryKinds.Get(EntryKinds.Cost).Find("currency")!;
        var longest = Assert.IsType<FieldType.Text>(currency.Type).MaxLength;
        for (var length = longest + 1; length < 20; length++)
        {
            var said = Assert.Single(
                JobDocument
                    .ReadFields(
                        new JsonObject
                        {
                            ["what"] = "valve core",
                            ["amount"] = 4,
                            ["currency"] = new string('x', length),
                        }.ToJsonString(),
                        EntryKinds.Get(EntryKinds.Cost)
                    )
                    .Problems
            );
            Assert.Equal(
                $"$.currency: “{new string('x', length)}” is not taken: at most {longest} characters are allowed.",
                said.Sentence.ToString()
            );
        }
    }

    private static void Judge(FieldSpec field, string text, FieldBag bag, List<InputProblem> problems)
    {
        // A blank field is a field not filled.
        if (text.Length == 0)
            return;
        foreach (var problem in problems)
        {
            var sentence = problem.Sentence.Render(new ReaderUnits(UnitSystem.Metric, CultureInfo.InvariantCulture));
            Assert.InRange(sentence.Length, 10, 1_500);
            Assert.DoesNotContain(
                '\uFFFD',
                System.Text.Encoding.UTF8.GetString(System.Text.Encoding.UTF8.GetBytes(sentence))
            );
        }
        var taken = problems.Count == 0;
        switch (field.Type)
        {
            case FieldType.Text type:
                Assert.Equal(text.Length <= type.MaxLength, taken);
                break;
            case FieldType.Choice choice:
                Assert.Equal(choice.Words.Contains(bag.Text(field.Name) ?? "") || text.Length == 0, taken);
                break;
            case FieldType.Spot or FieldType.Container:
                Assert.Equal(text.Length <= 80, taken);
                break;
            default:
                Assert.True(!taken || bag[field.Name] is not null);
                break;
        }
        if (taken && text.Length > 0 && bag[field.Name] is FieldValue.Text kept && field.Type is FieldType.Text)
            Assert.Equal(text, kept.Value);
    }
}
