using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>
/// The trade's teaching table (practice; the patterns every handbook repeats), fault by fault and architecture by
/// architecture: which way each needle and the vent go against a sound car on the same day (32 °C, 50 %, 1500 turns;
/// where a switch, or a stroke to spare is needed, 22 °C; for ice 26 °C). A sign of null is not taught. Where the model
/// disagrees it stands in <see cref="Argued"/> with the model's own sign, and docs/physics/loop.md argues it.
/// </summary>
public sealed class TeachingTableTests
{
    private const string Valve = "valve",
        Tube = "tube",
        Variable = "variable",
        Electric = "electric";
    private const string Mild = " on a mild day",
        Warm = " on a warm day";

    // Less than this nobody reads off a dial or a thermometer (practice: class 1.6 gauges; +-1 K).
    private const double PressureStillPa = 0.08e5;
    private const double VentStillK = 0.4;

    private static readonly LoopConditions Day = LoopConditions.DoorsOpen(305.15, 0.5);
    private static readonly LoopConditions MildDay = LoopConditions.DoorsOpen(295.15, 0.5);
    private static readonly LoopConditions WarmDay = LoopConditions.DoorsOpen(299.15, 0.5);

    private static readonly Dictionary<string, LoopModel> Cars = new()
    {
        [Valve] = Car(CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve),
        [Tube] = Car(CompressorKind.FixedCycling, ExpansionKind.OrificeTube),
        [Variable] = Car(CompressorKind.Variable, ExpansionKind.ExpansionValve),
        [Electric] = Car(CompressorKind.Electric, ExpansionKind.ExpansionValve),
    };

    public static TheoryData<string, string, double, int?, int?, int?> Taught =>
        new()
        {
            // car, fault, share of charge, low, high, vent
            { Valve, "none", 0.3, -1, -1, +1 },
            { Tube, "none", 0.45, null, -1, +1 },
            { Tube, "none", 0.35, -1, -1, +1 },
            { Variable, "none", 0.25, null, -1, +1 },
            { Electric, "none", 0.25, null, -1, +1 },
            { Valve, "none", 1.9, null, +1, null },
            { Variable, "none", 1.6, +1, +1, null },
            { Electric, "none", 1.6, null, +1, null },
            { Variable, "none", 1.9, +1, +1, +1 },
            { Electric, "none", 1.9, +1, +1, +1 },
            { Valve, "air", 1, null, +1, null },
            { Tube, "air", 1, +1, +1, +1 },
            { Variable, "air", 1, null, +1, null },
            { Variable + Mild, "air", 1, +1, +1, null },
            { Electric, "air", 1, null, +1, null },
            { Valve, "fan", 1, +1, +1, +1 },
            { Tube, "fan", 1, +1, +1, +1 },
            { Variable, "fan", 1, +1, +1, +1 },
            { Electric, "fan", 1, +1, +1, +1 },
            { Valve, "dirty condenser", 1, +1, +1, +1 },
            { Tube, "dirty condenser", 1, +1, +1, +1 },
            { Valve, "valve open", 1, +1, null, +1 },
            { Variable, "valve open", 1, +1, null, +1 },
            { Valve, "valve shut", 1, -1, -1, +1 },
            { Variable, "valve shut", 1, -1, -1, +1 },
            { Electric, "valve shut", 1, -1, -1, +1 },
            { Valve, "blocked drier", 1, -1, -1, +1 },
            { Tube, "plugged tube, little reserve", 0.6, null, -1, +1 },
            { Valve + Warm, "moisture ice", 1, -1, -1, +1 },
            { Valve, "worn compressor", 1, +1, -1, +1 },
            { Tube, "worn compressor", 1, +1, -1, +1 },
            { Variable, "worn compressor", 1, +1, -1, +1 },
            { Valve, "slipping clutch", 1, +1, -1, +1 },
            { Tube, "slipping clutch", 1, +1, -1, +1 },
            { Valve, "no clutch", 1, +1, -1, +1 },
            { Tube, "no clutch", 1, +1, -1, +1 },
            { Variable, "no clutch", 1, +1, -1, +1 },
            { Variable, "stuck at least stroke", 1, +1, -1, +1 },
            { Electric, "stuck at least stroke", 1, +1, -1, +1 },
            { Variable + Mild, "stuck at full stroke", 1, -1, +1, -1 },
            { Valve, "blend door", 1, 0, 0, +1 },
            { Tube, "blend door", 1, 0, 0, +1 },
            { Variable, "blend door", 1, 0, 0, +1 },
            { Tube + Mild, "switch too high", 1, +1, null, +1 },
            { Valve, "weak blower", 1, -1, -1, -1 },
            { Variable, "weak blower", 1, -1, -1, -1 },
            { Electric, "weak blower", 1, -1, -1, -1 },
        };

    /// <summary>What the trade teaches and the model contradicts: taught sign, then the model's.</summary>
    public static TheoryData<string, string, double, string, int, int> Argued =>
        new()
        {
            // Overcharge is taught high and high and warm; short of the high-pressure switch the colder liquid cools
            // more, so low side and vent fall a shade; a stroke to spare holds them.
            { Valve, "none", 1.6, "low", +1, -1 },
            { Valve, "none", 1.6, "vent", +1, -1 },
            { Variable + Mild, "none", 1.6, "low", +1, 0 },
            // A plugged tube is taught low and low; with charge in reserve liquid stacks up in the condenser and the
            // high side rises.
            { Tube, "plugged tube", 1, "high", -1, +1 },
            // A short charge in a cycling system is taught low; the switch holds its mean up, only the swing is fast.
            { Tube + Mild, "none", 0.35, "low", -1, +1 },
            // A weak blower is taught low; the fin thermostat cycles and holds the mean up.
            { Valve + Mild, "weak blower", 1, "low", -1, +1 },
            // Water in the circuit is taught to freeze in the valve; with the evaporator above 5 °C on a hot day it
            // does not.
            { Valve, "moisture ice", 1, "low", -1, 0 },
        };

    [Theory]
    [MemberData(nameof(Taught))]
    public void Each_fault_moves_the_needles_as_the_trade_teaches(
        string car,
        string fault,
        double chargeShare,
        int? low,
        int? high,
        int? vent
    )
    {
        var (sound, sick) = Both(car, fault, chargeShare);
        Same(low, sick.LowSidePa - sound.LowSidePa, PressureStillPa, "low");
        Same(high, sick.HighSidePa - sound.HighSidePa, PressureStillPa, "high");
        Same(vent, sick.VentK - sound.VentK, VentStillK, "vent");
    }

    [Theory]
    [MemberData(nameof(Argued))]
    public void Where_the_model_contradicts_the_trade_it_does_so_as_the_document_argues(
        string car,
        string fault,
        double chargeShare,
        string reading,
        int taught,
        int model
    )
    {
        var (sound, sick) = Both(car, fault, chargeShare);
        var (change, still) = reading switch
        {
            "low" => (sick.LowSidePa - sound.LowSidePa, PressureStillPa),
            "high" => (sick.HighSidePa - sound.HighSidePa, PressureStillPa),
            _ => (sick.VentK - sound.VentK, VentStillK),
        };
        Assert.NotEqual(taught, model);
        Same(model, change, still, reading);
    }

    [Fact]
    public void A_short_charge_makes_a_tube_system_cycle_faster_and_bubbles_show_in_a_valve_system()
    {
        Assert.True(Ask(Tube, "none", 0.3).CyclesPerMinute > Ask(Tube, "none", 0.5).CyclesPerMinute);
        Assert.True(Ask(Valve, "none", 0.5).SightGlassQuality > 0.02);
        Assert.Equal(0, Ask(Valve, "none", 1).SightGlassQuality, 1e-9);
    }

    [Fact]
    public void A_valve_system_hides_its_charge_on_a_plateau()
    {
        var readings = new[] { 0.8, 0.9, 1.0, 1.1, 1.2 }.Select(share => Ask(Valve, "none", share)).ToList();
        Assert.True(readings.Max(r => r.HighSidePa) - readings.Min(r => r.HighSidePa) < 0.06e5);
        Assert.True(readings.Max(r => r.LowSidePa) - readings.Min(r => r.LowSidePa) < 0.02e5);
    }

    [Fact]
    public void Air_shows_as_subcooling_that_is_not_there()
    {
        var (sound, sick) = Both(Valve, "air", 1);
        Assert.True(sick.ApparentSubcoolingK - sound.ApparentSubcoolingK > 3);
        Assert.Equal(sound.SubcoolingK, sick.SubcoolingK, 0.2);
    }

    private static void Same(int? taught, double change, double still, string reading)
    {
        if (taught is { } sign)
            Assert.True(
                sign == (Math.Abs(change) < still ? 0 : Math.Sign(change)),
                $"{reading}: taught {sign}, the model moves by {change:G3}"
            );
    }

    private static (LoopReadings Sound, LoopReadings Sick) Both(string car, string fault, double share) =>
        (Ask(car, "none", 1), Ask(car, fault, share));

    private static LoopReadings Ask(string car, string fault, double share) =>
        Ask(
            Cars[car.Split(' ')[0]],
            car.EndsWith(Mild, StringComparison.Ordinal) ? MildDay
                : car.EndsWith(Warm, StringComparison.Ordinal) ? WarmDay
                : Day,
            fault,
            share
        );

    private static LoopReadings Ask(LoopModel model, LoopConditions day, string fault, double share) =>
        model.Solve(day, share * model.Design.LabelChargeKg, Named(fault)).Readings!.Value;

    private static LoopFaults Named(string fault) =>
        fault switch
        {
            "none" => LoopFaults.None,
            "air" => new() { AirExcessPa = 1e5 },
            "fan" => new() { CondenserAirLoss = 0.8 },
            "dirty condenser" => new() { CondenserFouling = 0.6 },
            "valve open" => new() { ValveStuckOpen = 1 },
            "valve shut" => new() { ValveStuckClosed = 0.9 },
            "blocked drier" => new() { LiquidLineRestriction = 0.95 },
            "plugged tube, little reserve" => new() { TubePlugged = 0.7 },
            "plugged tube" => new() { TubePlugged = 0.5 },
            "moisture ice" => new() { MoistureIce = 0.9 },
            "worn compressor" => new() { CompressorWear = 0.6 },
            "slipping clutch" => new() { ClutchSlip = 0.4 },
            "no clutch" => new() { ClutchSlip = 1 },
            "stuck at least stroke" => new() { ControlStuckLow = 1 },
            "stuck at full stroke" => new() { ControlStuckHigh = 1 },
            "blend door" => new() { BlendDoorLeak = 0.2 },
            "switch too high" => new() { SwitchOffsetPa = 0.6e5 },
            "weak blower" => new() { EvaporatorAirLoss = 0.7 },
            _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "no such fault"),
        };

    private static LoopModel Car(CompressorKind compressor, ExpansionKind expansion) =>
        new(LoopDesigns.Of(SizeClass.Medium, compressor, expansion, "R134a"));
}
