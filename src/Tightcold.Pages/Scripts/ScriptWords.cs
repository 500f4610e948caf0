using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Scripts;

/// <summary>What the scripts say: their English texts, and the same in a reader's language, which a page hands them as
/// data. A script that finds none says English.</summary>
public static class ScriptWords
{
    /// <summary>Of the element that holds them.</summary>
    public const string Id = "words";

    /// <summary>Stays a place in what is handed over.</summary>
    private static readonly Phrase Place = Phrase.Verbatim("{0}");

    [Said]
    public static readonly ImmutableArray<string> All =
    [
        // beside.js
        "the data are busy or do not answer just now",
        "the disk that holds the data is full",
        "answer {0}",
        "No network: the units can be switched when it is back. What is typed stays.",
        "Sending",
        "Sent, and not taken",
        "{0} waiting for the network, kept in this browser",
        "{0} waiting, kept in this browser: {1}",
        "{0}, just now",
        "{0}, {1} min ago",
        "{0}, just now. Not taken: {1}",
        "{0}, {1} min ago. Not taken: {2}",
        "{0}; and {1} more",
        "Yes, it is right",
        "Throw it away",
        "Go there",
        "Heard",
        "{0} left",
        "due since {0}",
        "Sound is off: sound again",
        "Sound is on: be quiet",
        // exchange.js
        "Asking what each side holds",
        "Jobs that came over: {0}",
        "Jobs given: {0}, taken: {1}.",
        "{0} Both hold the same now.",
        "{0} Not all could be taken:",
        "Both held the same already.",
        "It was broken off: no answer. What came over stays; press again for the rest.",
        "It was broken off: the answer was {0}. What came over stays; press again for the rest.",
        "The laptop does not know this phone: pair it, then press again.",
        "The laptop does not answer: in the workshop’s network it would. By file it goes anywhere.",
        // live.js
        "Show",
        "This device is no longer paired; what is shown may be old.",
        "This job is no longer here.",
        // photo.js
        "Shrinking",
        "Ready: {0} kB.",
        "This browser cannot shrink it; it is sent as it is.",
        // voice.js
        "Say it",
        "Say it: {0}",
        "Heard “{0}”: no number in it. Say it again, or type it.",
        "Heard {0}. Look at it before you write it down.",
        "The browser may not listen here; its settings allow it.",
        "Nothing was heard. Say it again, or type it.",
        "Listening. Where the sound goes stands on the kit page.",
        "Read it out",
        // weigh.js
        "{0}: 20 g to its mark. Hand on the valve.",
        "{0} min {1} s",
        "{0} s",
        // worker.js
        "No network: this is how the page was at {0}.",
        "Job {0}",
        "Kept here",
        "No network",
        "No network here",
        "This page was not opened before on this device, so it is not kept. What you wrote down is kept in this "
            + "browser and is sent when the network is back.",
        "To the start",
    ];

    /// <summary>Those for a number of things, as the number asks for.</summary>
    private static readonly ImmutableArray<Func<long, Phrase>> Counted =
    [
        count =>
            Phrase.Many(
                count,
                $"{Place} new entry from another device, shown below.",
                $"{Place} new entries from another device, shown below."
            ),
        count =>
            Phrase.Many(count, $"{Place} new entry from another device.", $"{Place} new entries from another device."),
    ];

    /// <summary>Each English text with what is said for it, as JSON that may stand within a page; null where all is
    /// said in English. A text for a number of things has one form for each kind of number, named as the Unicode CLDR
    /// does (a browser's <c>Intl.PluralRules</c>), under its English form for many.</summary>
    public static string? Json(Tongue tongue)
    {
        ArgumentNullException.ThrowIfNull(tongue);
        var said = new SortedDictionary<string, JsonNode?>(StringComparer.Ordinal);
        foreach (var text in All)
            if (tongue.Say(text) is var here && here != text)
                said[text] = here;
        foreach (var many in Counted)
        {
            string Form(long count) => Text(many(count), tongue);
            var english = Text(many(5), MotherTongue.Instance);
            if (Form(5) != english)
                // Five stands for all the others: no language here has more than three kinds.
                said[english] = new JsonObject
                {
                    ["few"] = Form(2),
                    ["one"] = Form(1),
                    ["other"] = Form(5),
                };
        }
        // Written so that nothing in it ends the element it stands in.
        return said.Count == 0 ? null : new JsonObject(said).ToJsonString();
    }

    private static string Text(Phrase phrase, ITongue tongue) =>
        string.Concat(phrase.In(tongue).OfType<PhrasePart.Words>().Select(words => words.Text));
}
