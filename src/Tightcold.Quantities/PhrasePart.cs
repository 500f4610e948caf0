namespace Tightcold.Quantities;

/// <summary>A piece of a sentence: words, one measure, or a range of one kind.</summary>
public abstract record PhrasePart
{
    private PhrasePart() { }

    public sealed record Words(string Text) : PhrasePart;

    public sealed record One(Measure Value) : PhrasePart;

    public sealed record Range(Measure Low, Measure High) : PhrasePart
    {
        public Measure High { get; } =
            High.Kind == Low.Kind
                ? High
                : throw new ArgumentException($"a range from {Low.Kind} to {High.Kind} is none", nameof(High));
    }
}
