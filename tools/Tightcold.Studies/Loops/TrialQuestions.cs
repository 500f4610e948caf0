using System.Collections.Immutable;
using Tightcold.Loop.Designs;
using Tightcold.Loop;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Studies.Loops;

/// <summary>
/// Questions drawn evenly over the whole stated range of the model: every refrigerant, architecture and size, any
/// weather of <see cref="LoopLimits"/>, any charge, each fault absent three times in four and else of any severity.
/// Seeded, so that a run can be repeated.
/// </summary>
public sealed class TrialQuestions
{
    private const double FaultShare = 0.25;

    private readonly SeededChance _chance;
    private readonly ImmutableArray<LoopModel> _models;

    /// <param name="seed">Same seed, same questions.</param>
    public TrialQuestions(int seed)
    {
        _chance = new SeededChance((ulong)seed);
        _models =
        [
            .. from refrigerant in RefrigerantTables.Names
            from compressor in Enum.GetValues<CompressorKind>()
            from expansion in Enum.GetValues<ExpansionKind>()
            from size in Enum.GetValues<SizeClass>()
            select new LoopModel(LoopDesigns.Of(size, compressor, expansion, refrigerant)),
        ];
    }

    /// <summary>The next question.</summary>
    public TrialQuestion Next()
    {
        var model = _models[_chance.Below(_models.Length)];
        var conditions = new LoopConditions
        {
            AmbientK = _chance.Between(LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK),
            RelativeHumidity = _chance.Between(0, 1),
            BarometricPa = _chance.Between(LoopLimits.MinBarometricPa, LoopLimits.MaxBarometricPa),
            EngineRpm = _chance.Between(LoopLimits.MinEngineRpm, LoopLimits.MaxEngineRpm),
            CondenserFaceMPerS = _chance.Between(LoopLimits.MinCondenserFaceMPerS, LoopLimits.MaxCondenserFaceMPerS),
            ReentryK = _chance.Between(0, LoopLimits.MaxReentryK),
            BlowerShare = _chance.Between(LoopLimits.MinBlowerShare, 1),
            FreshShare = _chance.Between(0, 1),
            CabinK = _chance.Between(LoopLimits.MinCabinK, LoopLimits.MaxCabinK),
            CabinRelativeHumidity = _chance.Between(0, 1),
        };
        var faults = new LoopFaults
        {
            AirExcessPa = Severity() * LoopLimits.MaxAirExcessPa,
            CondenserAirLoss = Severity(),
            CondenserFouling = Severity(),
            EvaporatorAirLoss = Severity(),
            ValveStuckOpen = Severity(),
            ValveStuckClosed = Severity(),
            TubePlugged = Severity(),
            LiquidLineRestriction = Severity(),
            MoistureIce = Severity(),
            CompressorWear = Severity(),
            ClutchSlip = Severity(),
            ControlStuckLow = Severity(),
            ControlStuckHigh = Severity(),
            BlendDoorLeak = Severity(),
            ExcessOilKg = Severity() * LoopLimits.MaxExcessOilKg,
            SwitchOffsetPa = (Severity() - Severity()) * LoopLimits.MaxSwitchOffsetPa,
        };
        return new(
            model,
            conditions,
            model.Design.LabelChargeKg * _chance.Between(LoopLimits.MinChargeShare, LoopLimits.MaxChargeShare),
            faults
        );
    }

    /// <summary>Inputs that <see cref="Moved"/> can move.</summary>
    public const int MovableInputs = 15;

    /// <summary>The same question with one input, drawn at random, moved by a share of its range; it stays in
    /// range.</summary>
    public TrialQuestion Nudged(TrialQuestion question, double shareOfRange) =>
        Moved(question, _chance.Below(MovableInputs), shareOfRange);

    /// <summary>The same question with one input moved by a share of its range, up or down, as far as the range
    /// goes.</summary>
    public static TrialQuestion Moved(TrialQuestion question, int input, double shareOfRange)
    {
        ArgumentNullException.ThrowIfNull(question);
        var (c, f) = (question.Conditions, question.Faults);
        double To(double value, double least, double most) =>
            Math.Clamp(value + (shareOfRange * (most - least)), least, most);

        return input switch
        {
            0 => question with
            {
                Conditions = c with { AmbientK = To(c.AmbientK, LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK) },
            },
            1 => question with { Conditions = c with { RelativeHumidity = To(c.RelativeHumidity, 0, 1) } },
            2 => question with
            {
                Conditions = c with { EngineRpm = To(c.EngineRpm, LoopLimits.MinEngineRpm, LoopLimits.MaxEngineRpm) },
            },
            3 => question with
            {
                Conditions = c with { CabinK = To(c.CabinK, LoopLimits.MinCabinK, LoopLimits.MaxCabinK) },
            },
            4 => question with
            {
                Conditions = c with { BlowerShare = To(c.BlowerShare, LoopLimits.MinBlowerShare, 1) },
            },
            5 => question with { Faults = f with { AirExcessPa = To(f.AirExcessPa, 0, LoopLimits.MaxAirExcessPa) } },
            6 => question with { Faults = f with { CondenserAirLoss = To(f.CondenserAirLoss, 0, 1) } },
            7 => question with { Faults = f with { EvaporatorAirLoss = To(f.EvaporatorAirLoss, 0, 1) } },
            8 => question with { Faults = f with { TubePlugged = To(f.TubePlugged, 0, 1) } },
            9 => question with { Faults = f with { LiquidLineRestriction = To(f.LiquidLineRestriction, 0, 1) } },
            10 => question with { Faults = f with { CompressorWear = To(f.CompressorWear, 0, 1) } },
            11 => question with { Faults = f with { ClutchSlip = To(f.ClutchSlip, 0, 1) } },
            12 => question with { Faults = f with { ValveStuckOpen = To(f.ValveStuckOpen, 0, 1) } },
            13 => question with
            {
                Faults = f with
                {
                    SwitchOffsetPa = To(f.SwitchOffsetPa, -LoopLimits.MaxSwitchOffsetPa, LoopLimits.MaxSwitchOffsetPa),
                },
            },
            _ => question with
            {
                ChargeKg = To(
                    question.ChargeKg,
                    LoopLimits.MinChargeShare * question.Model.Design.LabelChargeKg,
                    LoopLimits.MaxChargeShare * question.Model.Design.LabelChargeKg
                ),
            },
        };
    }

    private double Severity() => _chance.Chance(FaultShare) ? _chance.Uniform() : 0;
}
