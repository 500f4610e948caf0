namespace Tightcold.Diagnosis.Tightness;

/// <summary>What a charge on record stands for.</summary>
public enum ChargeEventKind
{
    /// <summary>Inside at that moment: weighed into an empty circuit, or a filling remembered as full.</summary>
    Inside,

    /// <summary>Inside at that moment, at least: liquid was present.</summary>
    InsideAtLeast,

    /// <summary>Added to what was inside: a top-up.</summary>
    Added,

    /// <summary>Taken out whole and weighed: what was inside at that moment; nothing is inside after.</summary>
    Recovered,
}
