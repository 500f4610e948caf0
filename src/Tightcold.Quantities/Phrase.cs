using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Tightcold.Quantities;

/// <summary>A sentence whose numbers still know what they mean, so that the pure rooms can speak without knowing
/// the units or the culture of the reader. Written as an interpolated string:
/// <c>Phrase.Of($"about {mass} left")</c>. Two phrases are equal when their parts are.</summary>
public sealed class Phrase : IEquatable<Phrase>
{
    public static readonly Phrase Empty = new([]);

    private Phrase(ImmutableArray<PhrasePart> parts) => Parts = parts;

    public ImmutableArray<PhrasePart> Parts { get; }
    public bool IsEmpty => Parts.Length == 0;

    public static Phrase Of(Handler handler) => new(handler.ToParts());

    public static Phrase Words(string text) => new([new PhrasePart.Words(text)]);

    public static Phrase FromParts(IEnumerable<PhrasePart> parts) => new([.. parts]);

    /// <summary>This phrase, then <paramref name="next"/>, with a space between.</summary>
    public Phrase Then(Phrase next) =>
        IsEmpty ? next
        : next.IsEmpty ? this
        : new(Parts.Add(new PhrasePart.Words(" ")).AddRange(next.Parts));

    /// <summary>The sentence as text, in the reader's units.</summary>
    public string Render(IMeasureFormat format) =>
        string.Concat(
            Parts.Select(part =>
                part switch
                {
                    PhrasePart.Words words => words.Text,
                    PhrasePart.One one => format.Format(one.Value),
                    PhrasePart.Range range => format.Format(range.Low, range.High),
                    _ => "",
                }
            )
        );

    public bool Equals(Phrase? other) => other is not null && Parts.SequenceEqual(other.Parts);

    public override bool Equals(object? obj) => Equals(obj as Phrase);

    public override int GetHashCode() => Parts.Aggregate(17, (hash, part) => HashCode.Combine(hash, part));

    public override string ToString() => Render(SiFormat.Instance);

    /// <summary>Collects the pieces of an interpolated string. Only words, whole numbers and quantities are
    /// accepted: a bare double does not compile, because it would reach a person without its unit.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Handler
    {
        private readonly List<PhrasePart> parts;

        public Handler(int literalLength, int formattedCount)
        {
            _ = literalLength;
            parts = new(2 * formattedCount + 1);
        }

        public void AppendLiteral(string text) => parts.Add(new PhrasePart.Words(text));

        public void AppendFormatted(string text) => parts.Add(new PhrasePart.Words(text));

        public void AppendFormatted(int count) =>
            parts.Add(new PhrasePart.Words(count.ToString(System.Globalization.CultureInfo.InvariantCulture)));

        public void AppendFormatted(Measure measure) => parts.Add(new PhrasePart.One(measure));

        public void AppendFormatted(Phrase phrase) => parts.AddRange(phrase.Parts);

        public void AppendFormatted<T>(T quantity)
            where T : struct, IQuantity<T> => parts.Add(new PhrasePart.One(Measure.Of(quantity)));

        public void AppendFormatted((Measure Low, Measure High) range) =>
            parts.Add(new PhrasePart.Range(range.Low, range.High));

        internal ImmutableArray<PhrasePart> ToParts() => [.. parts];
    }
}
