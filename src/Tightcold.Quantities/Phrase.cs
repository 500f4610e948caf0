using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;

namespace Tightcold.Quantities;

/// <summary>A sentence whose numbers still know what they mean and whose words still know which message they are, so
/// that the pure rooms can speak without knowing the units or the language of the reader. Written as an interpolated
/// string: <c>Phrase.Of($"about {mass} left")</c> is the message “about {0} left” with a mass in its place. Two phrases
/// are equal when they read the same in English.</summary>
public sealed class Phrase : IEquatable<Phrase>
{
    public static readonly Phrase Empty = new(new Piece.Row([]));

    private readonly Piece piece;
    private ImmutableArray<PhrasePart> english;

    private Phrase(Piece piece) => this.piece = piece;

    /// <summary>Words and numbers as they stand in English.</summary>
    public ImmutableArray<PhrasePart> Parts => english.IsDefault ? english = In(MotherTongue.Instance) : english;

    public bool IsEmpty => Parts.Length == 0;

    public static Phrase Of(Handler handler) => new(handler.ToPiece());

    /// <summary>A message without places. Words that are no message, such as a name, are said as they are.</summary>
    public static Phrase Words([Said] string text) => new(new Piece.Message(text, []));

    /// <summary>A word that means something else elsewhere.</summary>
    /// <param name="context">Where it stands.</param>
    public static Phrase Words(string text, string? context) => new(new Piece.Message(text, [], context));

    /// <summary>What a person wrote: never translated.</summary>
    public static Phrase Verbatim(string text) => new(new Piece.Part(new PhrasePart.Words(text)));

    /// <summary>A number is chosen for: <c>Phrase.Many(n, $"{n} joint", $"{n} joints")</c>.</summary>
    public static Phrase Many(long count, Handler one, Handler many) =>
        new(new Piece.Many(count, one.ToMessage(), many.ToMessage()));

    /// <summary>Words that begin a line, as they are written in the middle of one.</summary>
    public static Phrase Within(Phrase phrase)
    {
        ArgumentNullException.ThrowIfNull(phrase);
        return new(new Piece.Turned(phrase.piece, static (tongue, words) => tongue.Within(words)));
    }

    /// <inheritdoc cref="Within(Phrase)"/>
    public static Phrase Within(string words) => Within(Words(words));

    /// <summary>The first letter large.</summary>
    public static Phrase Capital(Phrase phrase)
    {
        ArgumentNullException.ThrowIfNull(phrase);
        return new(
            new Piece.Turned(phrase.piece, static (_, words) =>
                words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..]
            )
        );
    }

    /// <summary>With the same words between each two.</summary>
    public static Phrase Join([Said] string between, IEnumerable<Phrase> phrases)
    {
        ArgumentNullException.ThrowIfNull(phrases);
        var pieces = ImmutableArray.CreateBuilder<Piece>();
        foreach (var phrase in phrases)
        {
            if (pieces.Count > 0)
                pieces.Add(new Piece.Message(between, []));
            pieces.Add(phrase.piece);
        }
        return new(new Piece.Row(pieces.DrainToImmutable()));
    }

    public static Phrase FromParts(IEnumerable<PhrasePart> parts) =>
        new(new Piece.Row([.. parts.Select(part => new Piece.Part(part))]));

    public static implicit operator Phrase([Said] string words) => Words(words);

    /// <summary>This phrase, then <paramref name="next"/>, with a space between.</summary>
    public Phrase Then(Phrase next)
    {
        ArgumentNullException.ThrowIfNull(next);
        return IsEmpty ? next
            : next.IsEmpty ? this
            : new(new Piece.Row([piece, new Piece.Part(new PhrasePart.Words(" ")), next.piece]));
    }

    /// <summary>Words and numbers as they stand in a language.</summary>
    public ImmutableArray<PhrasePart> In(ITongue tongue)
    {
        var parts = ImmutableArray.CreateBuilder<PhrasePart>();
        piece.Say(tongue, parts);
        return parts.DrainToImmutable();
    }

    /// <summary>The sentence as text, in the reader's language and units.</summary>
    public string Render(IMeasureFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return string.Concat(
            In(format.Tongue)
                .Select(part =>
                    part switch
                    {
                        PhrasePart.Words words => words.Text,
                        PhrasePart.One one => format.Format(one.Value),
                        PhrasePart.Range range => format.Format(range.Low, range.High),
                        _ => "",
                    }
                )
        );
    }

    public bool Equals(Phrase? other) => other is not null && Whole().SequenceEqual(other.Whole());

    public override bool Equals(object? obj) => Equals(obj as Phrase);

    public override int GetHashCode() => Whole().Aggregate(17, (hash, part) => HashCode.Combine(hash, part));

    /// <summary>The parts with words that follow each other made one: how a sentence was put together is no part of what
    /// it says.</summary>
    private IEnumerable<PhrasePart> Whole()
    {
        var words = "";
        foreach (var part in Parts)
            if (part is PhrasePart.Words more)
                words += more.Text;
            else
            {
                if (words.Length > 0)
                    yield return new PhrasePart.Words(words);
                words = "";
                yield return part;
            }
        if (words.Length > 0)
            yield return new PhrasePart.Words(words);
    }

    public override string ToString() => Render(SiFormat.Instance);

    /// <summary>Collects the pieces of an interpolated string. Only words, whole numbers and quantities are
    /// accepted: a bare double does not compile, because it would reach a person without its unit.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Handler
    {
        private readonly System.Text.StringBuilder message;
        private readonly ImmutableArray<Piece>.Builder places;

        public Handler(int literalLength, int formattedCount)
        {
            message = new(literalLength + 3 * formattedCount);
            places = ImmutableArray.CreateBuilder<Piece>(formattedCount);
        }

        public void AppendLiteral(string text) => message.Append(text);

        public void AppendFormatted([Said] string text) => Place(new Piece.Message(text, []));

        public void AppendFormatted(int count) =>
            Place(new Piece.Part(new PhrasePart.Words(count.ToString(CultureInfo.InvariantCulture))));

        public void AppendFormatted(Measure measure) => Place(new Piece.Part(new PhrasePart.One(measure)));

        public void AppendFormatted(Phrase phrase) => Place(phrase.piece);

        public void AppendFormatted<T>(T quantity)
            where T : struct, IQuantity<T> => Place(new Piece.Part(new PhrasePart.One(Measure.Of(quantity))));

        public void AppendFormatted((Measure Low, Measure High) range) =>
            Place(new Piece.Part(new PhrasePart.Range(range.Low, range.High)));

        private void Place(Piece piece)
        {
            message.Append('{').Append(places.Count).Append('}');
            places.Add(piece);
        }

        internal Piece.Message ToMessage() => new(message.ToString(), places.ToImmutable());

        /// <summary>A message of nothing but one place is what stands in it.</summary>
        internal Piece ToPiece() => places.Count == 1 && message.Length == 3 ? places[0] : ToMessage();
    }
}
