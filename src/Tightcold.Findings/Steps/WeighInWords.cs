using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.WeighIn;
using Tightcold.Procedures.Cans;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What can go wrong at the scale now, in words.</summary>
public static class WeighInWords
{
    /// <param name="picture">The job.</param>
    /// <param name="onScale">What stands on the scale; null for the container that gives next.</param>
    public static IEnumerable<Phrase> Warnings(JobPicture picture, string? onScale = null)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, live, balance) = (picture.Record, picture.WeighIn, picture.WeighIn.Balance);
        var now = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        if (picture.Timeline.Now.ChargedOnto is not Foreign.Nothing and var onto)
            yield return Phrase.Words(
                onto == Foreign.Nitrogen
                    ? "Refrigerant went in on top of nitrogen: recover it as contaminated."
                    : "Refrigerant went in on top of air: recover it as contaminated."
            );
        if (live.Overshoot is { MustStop: true } over)
            yield return Phrase.Of(
                $"Stop: {Odds(over.FarTooMuch)} sure that more than a tenth too much is in. Take "
                    + $"{Kilograms(over.TakeOutKg)} out with a recovery machine; never let it out."
            );
        if (balance.Holdings.Values.Any(holding => holding.Container.IsRecovery && holding.Connected))
            yield return Phrase.Words(
                "From a recovery cylinder only what was identified as this refrigerant, and as a rule only into the "
                    + "vehicle it came out of, or another of the same owner, after it was cleaned of oil, water and "
                    + "air by equipment that is approved for that; otherwise it goes to reclaim. Rules differ by "
                    + "place: check local rules."
            );
        if ((onScale ?? live.Container) is not { } name || !balance.Holdings.TryGetValue(name, out var holding))
            yield break;
        var own = Phrase.Verbatim(name);
        var fluid = FluidOf(record.Car);
        var readings = record
            .Journal.OfKind(EntryKinds.ScaleReading)
            .Where(entry =>
                string.Equals(entry.Fields.Text(FieldNames.Container), name, StringComparison.OrdinalIgnoreCase)
            )
            .TakeLast(2)
            .ToArray();
        var moved = record
            .Journal.OfKind(EntryKinds.ContainerMoved)
            .LastOrDefault(entry =>
                string.Equals(entry.Fields.Text(FieldNames.Container), name, StringComparison.OrdinalIgnoreCase)
            );
        var open =
            picture.Timeline.Now.Giving?.Name is { } giving
            && string.Equals(giving, name, StringComparison.OrdinalIgnoreCase);
        if (
            readings.Length == 2
            && readings[1].Fields.Si(FieldNames.Gross)
                > readings[0].Fields.Si(FieldNames.Gross) + 3 * record.KitAt(now).ScalePlusMinusKg
        )
            yield return Phrase.Of(
                $"{own} got heavier: the hose pulls on the scale, or the system drives refrigerant back into the "
                    + $"can. Close the valve and look."
            );
        var conditions = balance.Conditions(holding, now);
        if (
            conditions.SystemPa is { } systemPa
            && fluid.SaturationAtTemperature(conditions.TemperatureK).PressurePa is var canPa
            && systemPa > 0.97 * canPa
        )
            yield return Phrase.Of(
                $"At {At(conditions.TemperatureK)} {own} stands at {Absolute(canPa)}, the system at "
                    + $"{Absolute(systemPa)}: opened now it would fill, not give. Warm the can, never above "
                    + $"{At(CanSurroundings.HottestBathK)}, or start the engine."
            );
        if (open && LiveWeighIn.Rate(record, name) is { } rate && rate < CanModel.StallKgPerS && holding.NetKg > 0.03)
            yield return Phrase.Of(
                $"It stalls with {Kilograms(holding.NetKg)} still in {own}: the can got too cold to push. A bath of "
                    + $"warm water, never above {At(CanSurroundings.HottestBathK)}, brings it back; it is not empty."
            );
        var running = record
            .Journal.OfKind(EntryKinds.RunningReading)
            .Any(entry => entry.ObservedAt >= (moved?.ObservedAt ?? now));
        if (
            open
            && holding.HoldsLiquidInHose
            && (
                running
                || conditions.SystemPa < 0.75 * fluid.SaturationAtTemperature(conditions.TemperatureK).PressurePa
            )
        )
        {
            var path = FlowPath.Usual(record.Kit.HoseBoreM, record.Kit.HoseLengthM);
            var saturation = fluid.SaturationAtTemperature(conditions.TemperatureK);
            var lowPa = conditions.SystemPa ?? 3e5;
            var risk = LiquidRisk.Of(
                fluid,
                conditions.TemperatureK,
                lowPa,
                path.LiquidKgPerS(saturation.PressurePa, saturation.LiquidDensityKgPerM3, lowPa),
                0.03,
                8
            );
            if (risk.ReachesCompressorKgPerS > 0)
                yield return Phrase.Of(
                    $"{own} is inverted: liquid into a running suction breaks the compressor. A usual tap lets "
                        + $"several grams a second through, of which the suction gas evaporates about "
                        + $"{Kilograms(risk.MostSafeKgPerS)} a second. Turn it upright, or stop the engine."
                );
        }
    }
}
