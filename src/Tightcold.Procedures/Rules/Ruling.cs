namespace Tightcold.Procedures.Rules;

/// <summary>What a line says of an act; from the least to the strictest.</summary>
public enum Ruling
{
    /// <summary>A figure or a fact; nobody is bound by it.</summary>
    Fact,

    /// <summary>It may be done.</summary>
    Allowed,

    /// <summary>It must be done, or done so.</summary>
    Duty,

    /// <summary>No text could be read: ask.</summary>
    NotKnown,

    /// <summary>Only somebody with the certificate, licence or attestation of the place.</summary>
    Qualified,

    /// <summary>It may not be done.</summary>
    Forbidden,
}
