using Tightcold.Diagnosis.Measurement;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Faults;

/// <summary>What to do when a fault is it. Common practice.</summary>
/// <param name="Tells">What that shows.</param>
/// <param name="Entry">Kind of entry of the journal that takes it down.</param>
public sealed record Mending([Said] string What, [Said] string Tells, int Minutes, string Entry)
{
    /// <summary>Where a look of some minutes proves the fault before anything is bought.</summary>
    /// <param name="look">The first outcome of that look.</param>
    /// <param name="then">What to do once it was looked at.</param>
    /// <param name="opens">That begins with a recovery.</param>
    public Mending(
        [Said] string what,
        [Said] string tells,
        int minutes,
        Sign look,
        [Said] string then,
        bool opens = false
    )
        : this(what, tells, minutes, "sign") => (Look, Then, Opens) = (look, then, opens);

    public Sign? Look { get; }

    [Said]
    public string Then { get; } = "";

    public bool Opens { get; }
}
