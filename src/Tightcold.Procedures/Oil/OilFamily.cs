namespace Tightcold.Procedures.Oil;

/// <summary>Kinds of oil that a bottle or a label names.</summary>
public enum OilFamily
{
    /// <summary>The words name none.</summary>
    NotNamed,

    /// <summary>Polyalkylene glycol whose ends are open or capped once: made for R-134a.</summary>
    Pag,

    /// <summary>Double end-capped, or named for R-1234yf.</summary>
    DoubleCappedPag,

    /// <summary>Polyol ester, insulating where it says so.</summary>
    Ester,

    /// <summary>Mineral oil.</summary>
    Mineral,
}
