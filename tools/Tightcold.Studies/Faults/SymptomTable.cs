using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Refrigerant;
using Tightcold.Procedures.Running;

namespace Tightcold.Studies.Faults;

/// <summary>
/// The trade's teaching table, coded plainly, to be beaten: low side and high side each low, normal or high against the
/// published and the trade's own band for today's air, the vent, and what eyes see. Common practice, no source. A row
/// names a few faults; they share its odds evenly, and a rest is spread over everything else that the car can have.
/// </summary>
public static class SymptomTable
{
    // What a table of nine rows leaves for all that it does not name.
    private const double Rest = 0.2;
    private const double WarmVentBelowAirK = 12;

    /// <summary>Odds of each fault, and of nothing wrong (null), by the table. First readings only, as the table is
    /// used.</summary>
    public static IReadOnlyDictionary<string, double> Odds(DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        var point = evidence.Points[0];
        var car = evidence.Car;
        var possible = Fault
            .All.Where(fault => fault.Fits(car))
            .Select(fault => fault.Key)
            .Append(Hypothesis.NothingWrong)
            .ToArray();
        var named = Row(point, car).Where(possible.Contains).Distinct().ToArray();
        var odds = possible.ToDictionary(key => key, _ => (named.Length == 0 ? 1 : Rest) / possible.Length);
        foreach (var key in named)
            odds[key] += (1 - Rest) / named.Length;
        return odds;
    }

    private static IEnumerable<string> Row(OperatingPoint point, CarKnowledge car)
    {
        double? Value(Channel channel) =>
            point
                .Readings.Where(reading => reading.Channel == channel)
                .Select(reading => (double?)reading.Value)
                .FirstOrDefault();
        var band = ExpectedBand.At(point.AmbientK, car.Compressor == CompressorKind.Variable);
        if (Value(Channel.LowSide) is not { } lowPa || Value(Channel.HighSide) is not { } highPa || band is null)
            return [];
        var table = RefrigerantTables.For(car.Refrigerant);
        double lowK = table.SaturationTemperatureK(lowPa),
            highK = table.SaturationTemperatureK(highPa);
        var low =
            lowK < band.Value.LowFromK ? -1
            : lowK > band.Value.LowToK ? 1
            : 0;
        var high =
            highK < band.Value.HighFromK ? -1
            : highK > band.Value.HighToK ? 1
            : 0;
        var warm = Value(Channel.Vent) is { } vent && vent > point.AmbientK - WarmVentBelowAirK;
        Fault[] restriction = [Fault.ValveStuckClosed, Fault.TubePlugged, Fault.LineRestricted];
        var faults = (low, high) switch
        {
            _ when Math.Abs(highPa - lowPa) < 0.7e5 => [Fault.ClutchDead, Fault.CompressorWorn, Fault.ControlStuckLow],
            (-1, -1) when point.Frost == FrostSeen.AtThrottle => restriction,
            (-1, -1) => [Fault.Undercharge],
            (1, 1) when point.Clutch == ClutchSeen.Cycling => [Fault.CondenserAir],
            (1, 1) => [Fault.Overcharge, Fault.CondenserAir, Fault.AirInside],
            (1, -1) => [Fault.CompressorWorn, Fault.ControlStuckLow, Fault.ClutchSlips],
            (-1, 0) when point.Frost == FrostSeen.OnSuctionLine => [Fault.EvaporatorAir],
            (-1, 0) => [.. restriction, Fault.MoistureIce],
            (-1, 1) => restriction,
            (1, 0) => [Fault.ValveStuckOpen],
            (0, 1) => [Fault.CondenserAir, Fault.AirInside, Fault.Overcharge],
            (0, -1) => [Fault.Undercharge],
            _ when warm => [Fault.BlendDoorLeaks, Fault.EvaporatorAir],
            _ => (Fault[])[],
        };
        return faults.Length == 0 ? [Hypothesis.NothingWrong] : faults.Select(fault => fault.Key);
    }
}
