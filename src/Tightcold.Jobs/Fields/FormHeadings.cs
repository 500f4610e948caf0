using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>Headings of a form that something else speaks of too.</summary>
public static class FormHeadings
{
    /// <summary>Decides what a reading means: open until it was said once, then taken from the last reading and shown
    /// folded.</summary>
    [Said]
    public const string HowItRan = "How it ran";
}
