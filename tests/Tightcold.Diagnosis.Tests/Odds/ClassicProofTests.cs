using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Loop.Designs;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>
/// What the trade teaches as proof: a test, how it came out, and the fault that it must make likelier or unlikelier.
/// The direction is teaching, not the model's; the size is asked to be three to one where the trade calls it a proof.
/// docs/physics/diagnosis.md prints the table.
/// </summary>
public sealed class ClassicProofTests
{
    private const double Proof = 3;

    // Odds to a few hundredths are enough for a direction.
    private static readonly Effort Enough = new(40, 40, 5_000, 0.02);

    public static TheoryData<string, Sign, Fault, double> Signs =>
        new()
        {
            // what the car shows, what was found, the fault, how many times likelier its odds at least
            { "warm vent", Sign.HosePinchedColder, Fault.BlendDoorLeaks, Proof },
            { "both high", Sign.FanStopped, Fault.CondenserAir, Proof },
            { "both high", Sign.HighFallsFastThenSlowly, Fault.AirInside, Proof },
            { "both high", Sign.NoFoamAtLowerRevs, Fault.Overcharge, 1.3 },
            { "high and low", Sign.SidesEqualAtOnce, Fault.CompressorWorn, Proof },
            { "high and low", Sign.MetalInOil, Fault.CompressorWorn, Proof },
            { "vacuum", Sign.ColdAgainAfterRest, Fault.MoistureIce, Proof },
            { "vacuum", Sign.ComesAndGoes, Fault.MoistureIce, Proof },
            { "vacuum", Sign.LowNeedleSwings, Fault.MoistureIce, 2 },
            { "low and low", Sign.ColdBehindDrier, Fault.LineRestricted, Proof },
            { "low and low", Sign.FoamAtLowerRevs, Fault.Undercharge, 1.2 },
            { "cold core", Sign.AirWeak, Fault.EvaporatorAir, Proof },
            { "at rest", Sign.NoVoltageAtClutch, Fault.NoVoltage, Proof },
            { "at rest", Sign.VoltageAtClutch, Fault.ClutchDead, Proof },
            { "small stroke", Sign.ValveNotAskedFor, Fault.ControlNotAsked, Proof },
            { "small stroke", Sign.ValveAskedFor, Fault.ControlStuckLow, 1.3 },
            { "small stroke", Sign.BeltSlips, Fault.ClutchSlips, Proof },
        };

    public static TheoryData<string, Sign, Fault> Acquits =>
        new()
        {
            { "warm vent", Sign.HosePinchedSame, Fault.BlendDoorLeaks },
            { "both high", Sign.FanRuns, Fault.CondenserAir },
            { "both high", Sign.FoamAtLowerRevs, Fault.Overcharge },
            { "high and low", Sign.SidesDrawTogetherSlowly, Fault.CompressorWorn },
            { "vacuum", Sign.WarmStillAfterRest, Fault.MoistureIce },
            { "vacuum", Sign.CoolsSteadily, Fault.MoistureIce },
            { "low and low", Sign.NoStepAlongLiquidLine, Fault.LineRestricted },
            { "cold core", Sign.AirStrong, Fault.EvaporatorAir },
            { "at rest", Sign.VoltageAtClutch, Fault.NoVoltage },
            { "small stroke", Sign.ValveAskedFor, Fault.ControlNotAsked },
        };

    [Theory]
    [MemberData(nameof(Signs))]
    public void A_proof_of_the_trade_moves_its_fault_up(string car, Sign sign, Fault fault, double atLeast) =>
        Assert.True(
            Moved(Cars(car), sign, fault) >= atLeast,
            FormattableString.Invariant($"{Moved(Cars(car), sign, fault):0.00}")
        );

    [Theory]
    [MemberData(nameof(Acquits))]
    public void Its_opposite_moves_it_down(string car, Sign sign, Fault fault) =>
        Assert.True(
            Moved(Cars(car), sign, fault) <= 1,
            FormattableString.Invariant($"{Moved(Cars(car), sign, fault):0.00}")
        );

    /// <summary>Practice: a dead fan's high side comes down like a sound car's before a shop fan; air and too much
    /// refrigerant keep most of theirs.</summary>
    [Theory]
    [InlineData(850, 25.0, 3.2, 12.5, 2.0, Proof)]
    [InlineData(1500, 25.0, 2.6, 13.0, 1.9, Proof)]
    // A sound car with a hot front end falls as far from here: only never down.
    [InlineData(850, 23.0, 3.0, 13.5, 2.2, 1)]
    public void A_shop_fan_that_brings_the_high_side_far_down_accuses_the_cars_own(
        double rpm,
        double high,
        double low,
        double highThen,
        double lowThen,
        double atLeast
    )
    {
        var hot = ACase.Point(30, rpm).Gauges(low, high);
        var aided = (ACase.Point(30, rpm) with { Aid = Aid.Fan }).Gauges(lowThen, highThen);
        var before = Odds(ACase.Of(hot), Fault.CondenserAir, Effort.Deep);
        var after = Odds(ACase.Of(hot, aided), Fault.CondenserAir, Effort.Deep);
        Assert.True(after / before >= atLeast, FormattableString.Invariant($"{before:0.00} {after:0.00}"));
    }

    [Fact]
    public void A_shop_fan_that_hardly_moves_the_high_side_acquits_the_cars_own()
    {
        var hot = ACase.Point(30, 850).Gauges(3.0, 24);
        var aided = (ACase.Point(30, 850) with { Aid = Aid.Fan }).Gauges(2.7, 21);
        Assert.True(Odds(ACase.Of(hot, aided), Fault.CondenserAir) < Odds(ACase.Of(hot), Fault.CondenserAir));
    }

    [Fact]
    public void A_low_side_that_swings_between_vacuum_and_sound_is_water_that_freezes()
    {
        var swings = ACase.Point(30, 850).Gauges(-0.3, 10);
        swings = swings with
        {
            Readings = swings.Readings.Add(new(Channel.LowSwingTop, (2.4 * 1e5) + ACase.Air, 0.14e5, 0.1e5)),
        };
        var ranked = ACase.Ranked(ACase.Diagnose(ACase.Of(swings) with { Signs = [Sign.ComesAndGoes] }));
        Assert.Equal("moisture-ice", ranked[0]);
    }

    [Fact]
    public void Two_readings_of_one_car_one_frozen_and_one_clear_are_water_that_freezes()
    {
        var ranked = ACase.Ranked(
            ACase.Diagnose(ACase.Of(ACase.Point(30, 850).Gauges(-0.3, 8.5), ACase.Point(30, 850).Gauges(2.4, 15)))
        );
        Assert.Contains("moisture-ice", ranked.Take(2));
    }

    [Fact]
    public void A_cold_step_along_the_liquid_line_by_one_thermometer_is_a_restriction_there()
    {
        var point = ACase.Point().Gauges(0.8, 10);
        var stepped = point with { Readings = point.Readings.Add(new(Channel.LineStep, 12, 0.5)) };
        Assert.True(
            Odds(ACase.Of(stepped), Fault.LineRestricted) >= Proof * Odds(ACase.Of(point), Fault.LineRestricted)
        );
    }

    private static double Moved(DiagnosisEvidence car, Sign sign, Fault fault) =>
        Odds(car with { Signs = [sign] }, fault) / Odds(car, fault);

    private static double Odds(DiagnosisEvidence evidence, Fault fault) => Odds(evidence, fault, Enough);

    private static double Odds(DiagnosisEvidence evidence, Fault fault, Effort effort)
    {
        var p = Math.Clamp(
            CarScore.Marginal(Diagnoser.Diagnose(evidence, effort, 7)).GetValueOrDefault(fault.Key),
            1e-6,
            1 - 1e-6
        );
        return p / (1 - p);
    }

    private static DiagnosisEvidence Cars(string what) =>
        what switch
        {
            "warm vent" => ACase.Of(ACase.Point().Gauges(2.0, 15).At(Channel.Vent, 24)),
            "both high" => ACase.Of(ACase.Point(30, 850).Gauges(3.4, 23)),
            "high and low" => ACase.Of(ACase.Point(30, 850).Gauges(4.5, 9.5)),
            "vacuum" => ACase.Of(ACase.Point(30, 850).Gauges(-0.3, 8.5)),
            "low and low" => ACase.Of(ACase.Point().Gauges(0.6, 9.5)),
            "cold core" => ACase.Of(ACase.Point().Gauges(0.9, 11).At(Channel.Vent, 4)),
            "at rest" => ACase.Of(ACase.Point().Gauges(6.9, 7.0) with { Clutch = ClutchSeen.Off }),
            _ => new(
                new("R134a")
                {
                    LabelChargeKg = 0.55,
                    Compressor = CompressorKind.Variable,
                    Expansion = ExpansionKind.ExpansionValve,
                }
            )
            {
                Points = [ACase.Point().Gauges(4.6, 9.5)],
            },
        };
}
