using Tightcold.Numerics.Sampling;
using Tightcold.SecondWorld.Cars;
using Tightcold.SecondWorld.Leaks;

namespace Tightcold.SecondWorld.Vacuum;

/// <summary>
/// Pumping down and holding: three gases in one volume (air, water, refrigerant out of the oil), each with its own
/// source, stepped through time. Water evaporates at its own temperature, which it lowers until it freezes; oil gives
/// refrigerant and water from a film quickly and from its bulk slowly; parts and gauge drift with the day.
/// </summary>
public sealed class VacuumWorld
{
    private const double Gas = 8.314462618;
    private const double WaterKg = 0.018015;
    private const double LatentJPerKg = 2.6e6;
    private const double StepS = 0.5;

    private readonly SeededChance chance;
    private readonly List<Leak> leaks = [];
    private readonly List<Leak> hoses = [];

    // Gases, Pa, and stores, kg.
    private double airPa;
    private double waterPa;
    private double gasPa;
    private double freeKg;
    private double freeC;
    private double oilWaterFilmKg;
    private double oilWaterBulkKg;
    private double oilGasFilmKg;
    private double oilGasBulkKg;
    private double drierKg;
    private double seconds;

    // Of the day and the parts.
    private double volume;
    private double startC;
    private double driftKPerS;
    private double pumpM3PerS;
    private double ultimatePa;
    private double hoseBoreM;
    private double hoseLengthM;
    private double oilKg;
    private double drierMassKg;
    private double filmTimeS;
    private double bulkTimeS;
    private double wetUaWPerK;
    private double wetAreaKgPerSPa;

    // Of the gauge.
    private bool dial;
    private double gain;
    private double zeroPa;
    private double stepPa;
    private double gaugePerK;
    private double bodyDriftKPerS;
    private double waterGain;
    private double gasGain;
    private double thermometerK;

    private VacuumWorld(SeededChance chance) => this.chance = chance;

    private double PartC => startC + driftKPerS * seconds + 0.3 * Math.Sin(seconds / 400);

    /// <param name="seed">The same seed gives the same case.</param>
    public static VacuumCase Draw(ulong seed) => new VacuumWorld(new SeededChance(seed * 6007 + 3)).Make(seed);

    private VacuumCase Make(ulong seed)
    {
        var circuit = 2.6e-3 * Math.Exp(0.25 * chance.Normal());
        var hoseVolume = chance.Between(0.12e-3, 0.35e-3);
        volume = circuit + hoseVolume;
        startC = chance.Between(10, 34);
        driftKPerS = chance.Normal() * 1.5 / 3600;
        leaks.Add(LeakMaker.Of(chance, LeakMaker.Seep(chance)));
        if (chance.Chance(0.4))
            leaks.Add(LeakMaker.Of(chance, LeakMaker.Rate(chance)));
        if (chance.Chance(0.1))
            leaks.Add(LeakMaker.Of(chance, LeakMaker.Rate(chance)));
        if (chance.Chance(0.08))
            leaks.Add(new(15000 * Math.Exp(chance.Normal()), LeakKind.Orifice));
        hoses.Add(new(8 * Math.Exp(1.1 * chance.Normal()), LeakKind.Laminar));
        if (chance.Chance(0.08))
            hoses.Add(new(300 * Math.Exp(0.8 * chance.Normal()), LeakKind.Laminar));

        oilKg = 0.14 * Math.Exp(0.2 * chance.Normal());
        drierMassKg = chance.Chance(0.85) ? chance.Between(0.03, 0.06) : 0;
        freeKg = chance.Chance(0.22) ? 0.004 * Math.Exp(0.9 * chance.Normal()) : 0;
        freeC = startC;
        var oilWater = oilKg * (chance.Chance(0.3) ? chance.Between(0.002, 0.01) : chance.Between(0.0002, 0.0015));
        oilWaterFilmKg = 0.15 * oilWater;
        oilWaterBulkKg = 0.85 * oilWater;
        var oilGas = oilKg * Math.Min(0.03, 0.0008 * Math.Exp(chance.Normal()));
        oilGasFilmKg = 0.12 * oilGas;
        oilGasBulkKg = 0.88 * oilGas;
        drierKg = drierMassKg * chance.Between(0.01, 0.12);
        filmTimeS = chance.Between(60, 240);
        bulkTimeS = 3600 * chance.LogBetween(3, 20);
        wetUaWPerK = chance.Between(0.15, 0.8);
        wetAreaKgPerSPa = chance.LogBetween(2e-9, 2e-8);

        pumpM3PerS = chance.Between(0.7e-3, 2.4e-3);
        ultimatePa = chance.LogBetween(2, 12);
        hoseBoreM = chance.Chance(0.7) ? 0.0048 : 0.008;
        hoseLengthM = chance.Between(1.2, 3);

        dial = chance.Chance(0.2);
        gain = 1 + (dial ? 0.016 : 0.07) * chance.Normal();
        zeroPa = dial ? 1500 * chance.Normal() : 1.5 * chance.Normal();
        stepPa =
            dial ? 2000
            : chance.Chance(0.5) ? 0.1333
            : 1;
        gaugePerK = dial ? 0 : 0.004 * chance.Normal();
        bodyDriftKPerS = driftKPerS + chance.Normal() * 1.5 / 3600;
        waterGain = dial ? 1 : chance.Between(1, 1.25);
        gasGain = dial ? 1 : chance.Between(0.9, 1.3);
        thermometerK = 0.7 * chance.Normal();

        airPa = Leak.AirPa;
        var pumped = chance.Between(15, 60) * 60;
        var pumpDown = new List<HoldRead>();
        var next = 60.0;
        while (seconds < pumped)
        {
            Step(true);
            if (seconds < next)
                continue;
            pumpDown.Add(Shown());
            next *= 1.6;
        }
        pumpDown.Add(Shown());
        var freeAtStart = freeKg;
        var oilWaterAtStart = oilWaterFilmKg + oilWaterBulkKg;
        var oilGasAtStart = oilGasFilmKg + oilGasBulkKg;

        var isolated = seconds;
        var length = chance.Between(12, 45) * 60;
        var hold = new List<HoldRead>();
        double[] marks = [0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 30, 40, 50];
        foreach (var mark in marks)
        {
            if (mark * 60 > length)
                break;
            while (seconds - isolated < mark * 60)
                Step(false);
            var shown = Shown();
            hold.Add(shown with { Minute = mark });
        }
        return new()
        {
            Seed = seed,
            Leaks = leaks,
            VolumeM3 = circuit,
            HoseVolumeM3 = hoseVolume,
            CircuitGramPerYear = leaks.Sum(one => one.GramPerYear),
            SeenUnderVacuumGramPerYear = leaks
                .Where(one => one.Kind != LeakKind.Lip || one.ShutShare > 0.1)
                .Sum(one => one.GramPerYear),
            HoseGramPerYear = hoses.Sum(one => one.GramPerYear),
            AirFlowPaM3PerS = Inflow(0),
            FreeWaterG = 1000 * freeAtStart,
            OilWaterG = 1000 * oilWaterAtStart,
            OilRefrigerantG = 1000 * oilGasAtStart,
            DayC = startC,
            PumpedMinutes = pumped / 60,
            DialOnly = dial,
            PumpDown = pumpDown,
            Hold = hold,
        };
    }

    private double Inflow(double insidePa)
    {
        var flow = 0.0;
        foreach (var leak in leaks)
            flow += leak.Flow(GasKind.Air, Leak.AirPa, insidePa, true);
        foreach (var leak in hoses)
            flow += leak.Flow(GasKind.Air, Leak.AirPa, insidePa, true);
        return flow;
    }

    private void Step(bool pumping)
    {
        seconds += StepS;
        var partK = PartC + 273.15;
        var total = airPa + waterPa + gasPa;
        // Pa gained by a kilogram of each in this volume.
        var perWaterKg = Gas * partK / (WaterKg * volume);
        var perGasKg = Gas * partK / (GasKind.Refrigerant.MolarKg * volume);

        airPa += Inflow(total) / volume * StepS;

        // Free water: held back by the heat that reaches it; ice below zero.
        if (freeKg > 0)
        {
            var drive = Psychrometrics.SaturationPa(freeC) - waterPa;
            var off = Math.Clamp(wetAreaKgPerSPa * drive * StepS, -1e-6, 0.2 * freeKg + 1e-9);
            off = Math.Min(off, freeKg);
            // One step must not carry the gas past the water's own pressure.
            if (drive > 0)
                off = Math.Min(off, drive / perWaterKg);
            freeKg -= off;
            waterPa += off * perWaterKg;
            var heat = wetUaWPerK * (PartC - freeC) * StepS - off * LatentJPerKg;
            freeC += heat / (4190 * Math.Max(freeKg, 0.0005) + 15);
            if (freeKg < 1e-7)
                freeKg = 0;
        }

        // Water in the oil: pressure by its share of saturation, 2.5 % by mass being full.
        var oilFull = Psychrometrics.SaturationPa(PartC) / (0.025 * oilKg);
        Exchange(ref oilWaterFilmKg, 0.15, oilFull, ref waterPa, perWaterKg, filmTimeS);
        Exchange(ref oilWaterBulkKg, 0.85, oilFull, ref waterPa, perWaterKg, bulkTimeS);
        // Drier: very little pressure until it is nearly full.
        if (drierMassKg > 0)
        {
            var load = drierKg / (0.18 * drierMassKg);
            var equilibrium = Psychrometrics.SaturationPa(PartC) * (0.0005 + 0.02 * Math.Pow(load, 6));
            var move = 3e-10 * (equilibrium - waterPa) * StepS;
            move = Math.Clamp(move, -0.2 * waterPa / perWaterKg, drierKg);
            drierKg -= move;
            waterPa += move * perWaterKg;
        }
        // Refrigerant in the oil: some 10 % by mass at 1 bar and 20 °C, less when warm.
        var gasFull = 1e5 / (0.1 * oilKg) * Math.Exp(0.025 * (PartC - 20));
        Exchange(ref oilGasFilmKg, 0.12, gasFull, ref gasPa, perGasKg, filmTimeS);
        Exchange(ref oilGasBulkKg, 0.88, gasFull, ref gasPa, perGasKg, bulkTimeS);

        if (!pumping)
            return;
        total = airPa + waterPa + gasPa;
        var speed = Speed(total);
        var left = Math.Exp(-speed / volume * StepS);
        var pump = Math.Min(1, ultimatePa / Math.Max(total, 1e-3));
        left += (1 - left) * pump;
        airPa *= left;
        waterPa *= left;
        gasPa *= left;
    }

    /// <summary>A store that gives its gas towards equilibrium in a time of its own, never past it.</summary>
    private static void Exchange(
        ref double storeKg,
        double share,
        double perKg,
        ref double pressure,
        double perGasKg,
        double timeS
    )
    {
        var equilibrium = storeKg / share * perKg;
        var move = (equilibrium - pressure) * share / perKg * (1 - Math.Exp(-StepS / timeS));
        move = Math.Clamp(move, -0.3 * pressure / perGasKg, storeKg);
        storeKg -= move;
        pressure += move * perGasKg;
    }

    /// <summary>
    /// Pump behind a hose, m³/s: viscous and molecular conductance of the tube in parallel, the pump in series.
    /// </summary>
    private double Speed(double pressurePa)
    {
        var bore = hoseBoreM * 100;
        var length = hoseLengthM * 100;
        var litres = 135 * Math.Pow(bore, 4) / length * (0.5 * pressurePa / 100) + 12.1 * Math.Pow(bore, 3) / length;
        var conductance = litres / 1000;
        return 1 / (1 / conductance + 1 / pumpM3PerS);
    }

    private HoldRead Shown()
    {
        var warmed = bodyDriftKPerS * seconds;
        var inside = airPa + waterGain * waterPa + gasGain * gasPa;
        var shown = inside * gain * (1 + gaugePerK * warmed) + zeroPa + 0.004 * inside * chance.Normal();
        shown = Math.Max(0, Math.Round(shown / stepPa) * stepPa);
        return new(seconds / 60, shown, Math.Round(PartC + thermometerK + 0.2 * chance.Normal(), 1));
    }

    /// <summary>The truth behind a hold, for tests: pressures of air, water and refrigerant now.</summary>
    internal (double AirPa, double WaterPa, double GasPa) Inside => (airPa, waterPa, gasPa);
}
