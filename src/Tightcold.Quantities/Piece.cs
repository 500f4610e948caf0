using System.Collections.Immutable;

namespace Tightcold.Quantities;

/// <summary>What a phrase is made of, before a language is chosen.</summary>
internal abstract record Piece
{
    private Piece() { }

    /// <summary>Writes itself down in a language.</summary>
    public abstract void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts);

    /// <summary>A number, or words of no language.</summary>
    public sealed record Part(PhrasePart One) : Piece
    {
        public override void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts) => parts.Add(One);
    }

    /// <summary>A message and what stands in its places.</summary>
    public sealed record Message(string Text, ImmutableArray<Piece> Places, string? Context = null) : Piece
    {
        public override void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts)
        {
            if (Text.Length > 0)
                Fill(tongue.Say(Text, Context), Places, tongue, parts);
        }
    }

    public sealed record Many(long Count, Message One, Message More) : Piece
    {
        public override void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts) =>
            Fill(
                tongue.Say(One.Text, More.Text, Count),
                One.Places.Length >= More.Places.Length ? One.Places : More.Places,
                tongue,
                parts
            );
    }

    public sealed record Row(ImmutableArray<Piece> Pieces) : Piece
    {
        public override void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts)
        {
            foreach (var piece in Pieces)
                piece.Say(tongue, parts);
        }
    }

    /// <summary>Whose first words are written otherwise than they would be by themselves.</summary>
    public sealed record Turned(Piece What, Func<ITongue, string, string> Turn) : Piece
    {
        public override void Say(ITongue tongue, ImmutableArray<PhrasePart>.Builder parts)
        {
            var first = parts.Count;
            What.Say(tongue, parts);
            if (first < parts.Count && parts[first] is PhrasePart.Words words)
                parts[first] = new PhrasePart.Words(Turn(tongue, words.Text));
        }
    }

    /// <summary>The words of a message between what stands in its places, in the order of the language.</summary>
    private static void Fill(
        string message,
        ImmutableArray<Piece> places,
        ITongue tongue,
        ImmutableArray<PhrasePart>.Builder parts
    )
    {
        var from = 0;
        for (var at = 0; at + 2 < message.Length; at++)
        {
            if (message[at] != '{' || Place(message, at, out var end) is not { } place || place >= places.Length)
                continue;
            if (at > from)
                parts.Add(new PhrasePart.Words(message[from..at]));
            places[place].Say(tongue, parts);
            from = end;
            at = end - 1;
        }
        if (from < message.Length)
            parts.Add(new PhrasePart.Words(message[from..]));
    }

    private static int? Place(string message, int at, out int end)
    {
        var number = 0;
        end = at + 1;
        while (end < message.Length && char.IsAsciiDigit(message[end]))
            number = 10 * number + (message[end++] - '0');
        if (end == at + 1 || end >= message.Length || message[end] != '}')
            return null;
        end++;
        return number;
    }
}
