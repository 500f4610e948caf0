using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Charging;

/// <summary>The honest ways to a charge when the label is gone, best first, each with how far off it may end.</summary>
/// <param name="Way">What to do.</param>
/// <param name="OffBy">Relative error to expect, 95 %; null when only a maker's figure gives none.</param>
/// <param name="Risk">What that can cost.</param>
public readonly record struct WithoutLabel([Said] string Way, double? OffBy, [Said] string Risk)
{
    /// <summary>Spreads: the flat part of the cooling curve is about ± 20 % wide (loop model); one published car rig
    /// lost up to a quarter of its capacity at 20 % more or 40 % less than its best charge; class charges run from 350
    /// to 900 g for one evaporator (common practice).</summary>
    public static readonly ImmutableArray<WithoutLabel> All =
    [
        new(
            "Find the maker's figure: second label on the front frame or the strut tower, owner's book, maker's book, "
                + "a dealer's parts desk by the vehicle number",
            null,
            "none; it costs a telephone call"
        ),
        new(
            "Take the mass recovered from this same system, only if it cooled well before and no leak was found",
            0.10,
            "what had leaked out by then is missing"
        ),
        new(
            "Weigh in three quarters of what cars of this class hold, then step by 30 g while subcooling, superheat "
                + "and vent are read; stop at the first step that no longer helps",
            0.20,
            "the flat part of the curve hides a fifth too much or too little; too much raises the high side and can "
                + "break the compressor on a hot day"
        ),
        new(
            "Fill by the low-side gauge",
            0.40,
            "never: the low side hardly changes with the charge; up to a quarter of the cooling lost, or the compressor"
        ),
    ];
}
