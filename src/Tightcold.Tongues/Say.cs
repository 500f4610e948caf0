using System.Runtime.CompilerServices;
using System.Text;
using Tightcold.Quantities;

namespace Tightcold.Tongues;

/// <summary>Texts of the faces, in the language of who is asking: the host says which, once for each request or
/// command. Pure rooms know nothing of it; they hand out a <see cref="Phrase"/>.</summary>
public static class Say
{
    private static readonly AsyncLocal<Tongue?> current = new();

    /// <summary>The language of this request or command.</summary>
    public static Tongue Tongue
    {
        get => current.Value ?? AllTongues.English;
        set => current.Value = value;
    }

    /// <summary>A message, or a word of the pure rooms; what is none is said as it is.</summary>
    public static string It([Said] string message) => Tongue.Say(message);

    /// <summary>A word that means something else elsewhere.</summary>
    public static string It(string message, string? context) => Tongue.Say(message, context);

    /// <summary>A message with words and whole numbers in it. What is put in is put in as it is.</summary>
    public static string It(Handler message) => Filled(Tongue.Say(message.Text), message.Places);

    /// <summary>A message for a number of things.</summary>
    public static string Many(long count, Handler one, Handler many) =>
        Filled(
            Tongue.Say(one.Text, many.Text, count),
            one.Places.Length >= many.Places.Length ? one.Places : many.Places
        );

    /// <summary>A message as it is written within a line: its first letter small, where the language does so.</summary>
    public static string Within([Said] string message) => Tongue.Within(Tongue.Say(message));

    private static string Filled(string message, string[] places)
    {
        if (places.Length == 0)
            return message;
        var filled = new StringBuilder(message.Length + 16 * places.Length);
        for (var at = 0; at < message.Length; at++)
        {
            var end = message[at] == '{' ? message.IndexOf('}', at) : -1;
            if (
                end > at
                && int.TryParse(
                    message.AsSpan(at + 1, end - at - 1),
                    System.Globalization.NumberStyles.None,
                    System.Globalization.CultureInfo.InvariantCulture,
                    out var place
                )
                && place < places.Length
            )
            {
                filled.Append(places[place]);
                at = end;
            }
            else
                filled.Append(message[at]);
        }
        return filled.ToString();
    }

    /// <summary>Collects an interpolated string as a message with places. A phrase or a measure is rendered before: they
    /// need the reader's units.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Handler
    {
        private readonly StringBuilder message;
        private readonly List<string> places;

        public Handler(int literalLength, int formattedCount)
        {
            message = new(literalLength + 3 * formattedCount);
            places = new(formattedCount);
        }

        internal string Text => message.ToString();
        internal string[] Places => [.. places];

        public void AppendLiteral(string text) => message.Append(text);

        public void AppendFormatted(string? text) => Place(text ?? "");

        public void AppendFormatted(long count) =>
            Place(count.ToString(System.Globalization.CultureInfo.InvariantCulture));

        private void Place(string text)
        {
            message.Append('{').Append(places.Count).Append('}');
            places.Add(text);
        }
    }
}
