using System.Globalization;
using System.Text;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;

namespace Tightcold.Trials.Inputs;

/// <summary>Texts that a person might type, and what nobody would, into every quantity and every field of every form:
/// each is read as a number that is one, or refused in a sentence that names field and value.</summary>
internal static class TypedInputs
{
    private static readonly string[] Seeds =
    [
        "68 psig ± 2 psi",
        "-5 °C",
        "77 °F",
        "4,8 bar",
        "1.013e5 Pa",
        "680 g",
        "1 lb 8 oz",
        "29.9 inHg",
        "500 micron",
        "55 %",
        "14:30",
        "2031-07-04 14:30",
        "2031-07-04T14:30:00+02:00",
        "yes",
        "R-134a",
        "condenser, evaporator",
        "25 min",
        "1600 m",
        "0",
        "",
        "±",
        "1e999 bar",
        "NaN °C",
        "∞ Pa",
        "١٢ bar",
        "1/2 lb",
        "1'000 kPa",
    ];

    private static readonly string[] Pieces =
    [
        "±",
        "+/-",
        "e",
        "E+400",
        ".",
        ",",
        "-",
        " ",
        " ",
        "\u202e",
        "\ud800",
        "\0",
        "\n",
        "°",
        "psig",
        "bar",
        "Pa",
        "%",
        "0",
        "9999999999",
        "NaN",
        "Infinity",
        "'",
        "<b>",
        "\"",
        "½",
        "μ",
        "µ",
        "K",
    ];

    public static async Task<bool> RunAsync(int times, TextWriter to)
    {
        var chance = new Random(20310704);
        CultureInfo[] cultures = [CultureInfo.InvariantCulture, CultureInfo.GetCultureInfo("de-DE")];
        Schema[] forms = [Car.Schema, Kit.Schema, Container.Schema, .. EntryKinds.All];
        FieldType.Quantity[] kinds =
        [
            .. forms
                .SelectMany(form => form.Fields)
                .Select(field => field.Type)
                .OfType<FieldType.Quantity>()
                .DistinctBy(type => type.Kind),
        ];
        var (read, refused) = (0, 0);
        var wrong = new List<string>();
        for (var i = 0; i < times; i++)
        {
            var text = Text(chance);
            var culture = cultures[i % cultures.Length];
            var what = "";
            try
            {
                if (i % 2 == 0)
                {
                    var kind = kinds[chance.Next(kinds.Length)];
                    what = kind.Kind.ToString();
                    var (value, problem) = UnitParser.Parse(kind, text, culture);
                    wrong.AddRange(Judge(what, text, value is null ? [] : [value], problem is null ? [] : [problem]));
                    _ = problem is null ? read++ : refused++;
                }
                else
                {
                    var form = forms[chance.Next(forms.Length)];
                    what = form.Name;
                    var fields = form
                        .Fields.Where(_ => chance.NextDouble() < 0.4)
                        .ToDictionary(field => field.Name, _ => chance.NextDouble() < 0.5 ? text : Text(chance));
                    var (bag, problems) = FieldReader.Read(form, fields, culture);
                    wrong.AddRange(Judge(what, text, bag.Select(field => field.Value), problems));
                    _ = problems.Count == 0 ? read++ : refused++;
                }
            }
#pragma warning disable CA1031 // What else comes out is what is looked for.
            catch (Exception trouble)
#pragma warning restore CA1031
            {
                wrong.Add($"{what}, “{text}”: {trouble.GetType().Name} {trouble.Message}");
            }
        }
        await to.WriteLineAsync(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{times} typed inputs into {kinds.Length} kinds of quantity and {forms.Length} forms: {read} read, {refused} refused in sentences, {wrong.Count} otherwise"
                )
            )
            .ConfigureAwait(false);
        foreach (var trouble in wrong.Take(10))
            await to.WriteLineAsync("  " + trouble).ConfigureAwait(false);
        return wrong.Count == 0;
    }

    private static IEnumerable<string> Judge(
        string what,
        string text,
        IEnumerable<FieldValue> values,
        IEnumerable<InputProblem> problems
    )
    {
        foreach (var value in values)
            if (value is FieldValue.Quantity { Value.Si: var si } && !double.IsFinite(si))
                yield return $"{what}, “{text}” was read as {si}";
        foreach (var problem in problems)
        {
            var sentence = problem.Sentence.ToString();
            if (string.IsNullOrWhiteSpace(sentence) || string.IsNullOrWhiteSpace(problem.Field))
                yield return $"{what}, “{text}” was refused without a sentence";
        }
    }

    private static string Text(Random chance)
    {
        var text = new StringBuilder(Seeds[chance.Next(Seeds.Length)]);
        for (var changes = chance.Next(0, 4); changes > 0; changes--)
            switch (chance.Next(4))
            {
                case 0:
                    text.Insert(chance.Next(text.Length + 1), Pieces[chance.Next(Pieces.Length)]);
                    break;
                case 1 when text.Length > 0:
                    text.Remove(chance.Next(text.Length), 1);
                    break;
                case 2 when text.Length > 0:
                    text[chance.Next(text.Length)] = (char)chance.Next(0, 0x2100);
                    break;
                default:
                    text.Append(Seeds[chance.Next(Seeds.Length)]);
                    break;
            }
        // Now and then one that goes on and on.
        return chance.Next(500) == 0 ? new string('9', chance.Next(1, 5000)) + text : text.ToString();
    }
}
