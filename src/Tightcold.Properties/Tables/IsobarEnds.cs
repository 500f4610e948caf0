using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tables;

/// <summary>
/// The states between which an isobar is tabled: liquid from <see cref="LiquidOuter"/> (coldest) to
/// <see cref="LiquidEdge"/> (saturated), gas from <see cref="GasEdge"/> to <see cref="GasOuter"/> (hottest). Above
/// the critical pressure both edges are the state on the critical isochore; without liquid its two are unused.
/// </summary>
internal readonly record struct IsobarEnds(
    PointProperties LiquidOuter,
    PointProperties LiquidEdge,
    PointProperties GasEdge,
    PointProperties GasOuter
);
