using Tightcold.Picture.Charge;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>The charge in words.</summary>
public static class ChargeWords
{
    public static EstimateOrigin Origin(ChargeFrom from) =>
        from switch
        {
            ChargeFrom.Scale => EstimateOrigin.Measured,
            ChargeFrom.Model => EstimateOrigin.Modelled,
            _ => EstimateOrigin.Computed,
        };
}
