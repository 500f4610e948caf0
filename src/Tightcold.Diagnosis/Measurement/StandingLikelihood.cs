namespace Tightcold.Diagnosis.Measurement;

/// <summary>ln p(standing pressure | modelled one).</summary>
internal static class StandingLikelihood
{
    // Below this share of saturation no liquid is left and the pressure hardly moves with temperature.
    private const double VapourOnlyBelow = 0.97;
    private const double SaturatedPerK = 0.029;
    private const double VapourPerK = 0.0035;

    // Volume and oil of a car are not known well enough for better.
    private const double ModelShare = 0.02;

    public static double Log(in StandingPressure reading, double modelledPa, double saturationPa)
    {
        var perK = modelledPa < VapourOnlyBelow * saturationPa ? VapourPerK : SaturatedPerK;
        var thermal = perK * modelledPa * reading.TemperatureSigmaK;
        var model = ModelShare * modelledPa;
        var sigma = Math.Sqrt((reading.SigmaPa * reading.SigmaPa) + (thermal * thermal) + (model * model));
        var density =
            (1 - ErrorModel.GrossChance) * ReadingLikelihood.Student((reading.PressurePa - modelledPa) / sigma) / sigma;
        return Math.Log(density + (ErrorModel.GrossChance * ErrorModel.Anything(Channel.LowSide)));
    }
}
