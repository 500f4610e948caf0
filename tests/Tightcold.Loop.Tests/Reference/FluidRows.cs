using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>Another refrigerant in the same circuit: benches, and what the bare cycle allows. Sources in
/// docs/validation.md.</summary>
internal static class FluidRows
{
    public static IEnumerable<string> Rows() => [.. Systems(), .. WithoutReserve(), .. Ideal()];

    private static IEnumerable<string> Systems()
    {
        var fixedCar = ValidationRows.Car(CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve).Design;
        var dropIn = new LoopModel(fixedCar, RefrigerantTables.For("R1234yf"));
        var own = new LoopModel(fixedCar);
        var day = LoopConditions.DoorsOpen(308.15, 0.4);
        var a = own.Solve(day).Readings!.Value;
        var b = dropIn.Solve(day, 0.95 * fixedCar.LabelChargeKg, LoopFaults.None).Readings!.Value;
        yield return ValidationRows.Plain(
            "7",
            "R-1234yf dropped in: capacity, %",
            "down to -4.0",
            100 * ((b.CoolingW / a.CoolingW) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "7",
            "R-1234yf dropped in: COP, %",
            "down to -2.7",
            100 * ((ValidationRows.Cop(b) / ValidationRows.Cop(a)) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "7",
            "R-1234yf dropped in: discharge line, K",
            "-6.5",
            b.DischargeLineK - a.DischargeLineK,
            "0.0"
        );
        var variable = ValidationRows.Car(CompressorKind.Variable, ExpansionKind.ExpansionValve).Design;
        var va = new LoopModel(variable).Solve(day).Readings!.Value;
        var vb = new LoopModel(variable, RefrigerantTables.For("R1234yf"))
            .Solve(day, 0.95 * variable.LabelChargeKg, LoopFaults.None)
            .Readings!.Value;
        yield return ValidationRows.Plain(
            "8",
            "R-1234yf, variable: capacity, %",
            "-13.7 (mean)",
            100 * ((vb.CoolingW / va.CoolingW) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "8",
            "R-1234yf, variable: COP, %",
            "-12.8 (mean)",
            100 * ((ValidationRows.Cop(vb) / ValidationRows.Cop(va)) - 1),
            "0.0"
        );
        var hot = LoopConditions.DoorsOpen(313.15, 0.4);
        var (ha, hb) = (
            new LoopModel(variable).Solve(hot).Readings!.Value,
            new LoopModel(variable, RefrigerantTables.For("R1234yf"))
                .Solve(hot, 0.95 * variable.LabelChargeKg, LoopFaults.None)
                .Readings!.Value
        );
        yield return ValidationRows.Plain(
            "8",
            "R-1234yf, variable at full stroke (40 °C): capacity, %",
            "-13.7 (mean)",
            100 * ((hb.CoolingW / ha.CoolingW) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "8",
            "R-1234yf, variable at full stroke (40 °C): COP, %",
            "-12.8 (mean)",
            100 * ((ValidationRows.Cop(hb) / ValidationRows.Cop(ha)) - 1),
            "0.0"
        );
        var fast = LoopConditions.DoorsOpen(308.15, 0.4, 1800 / fixedCar.PulleyRatio);
        var c = own.Solve(fast).Readings!.Value;
        var d = new LoopModel(fixedCar, RefrigerantTables.For("R152a"))
            .Solve(fast, 0.75 * fixedCar.LabelChargeKg, LoopFaults.None)
            .Readings!.Value;
        var e = dropIn.Solve(fast, 1.1 * fixedCar.LabelChargeKg, LoopFaults.None).Readings!.Value;
        yield return ValidationRows.Plain(
            "9",
            "R-152a at 75 % of the charge: power, %",
            "-5.96",
            100 * ((d.PowerW / c.PowerW) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "9",
            "R-152a at 75 % of the charge: COP, %",
            "+11.26",
            100 * ((ValidationRows.Cop(d) / ValidationRows.Cop(c)) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "9",
            "R-1234yf at 110 % of the charge: power, %",
            "-5.04",
            100 * ((e.PowerW / c.PowerW) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "9",
            "R-1234yf at 110 % of the charge: COP, %",
            "+1.45",
            100 * ((ValidationRows.Cop(e) / ValidationRows.Cop(c)) - 1),
            "0.0"
        );
    }

    /// <summary>
    /// A bench has no reserve of liquid: its charge sets the subcooling. R-134a with just enough to seal the liquid
    /// line, and at its best COP; R-1234yf with a tenth more.
    /// </summary>
    private static IEnumerable<string> WithoutReserve()
    {
        var design = ValidationRows.Car(CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve).Design with
        {
            StoreVolumeM3 = 0.02e-3,
        };
        var (own, dropIn) = (new LoopModel(design), new LoopModel(design, RefrigerantTables.For("R1234yf")));
        var day = LoopConditions.DoorsOpen(308.15, 0.4, 1800 / design.PulleyRatio);
        var charges = Enumerable.Range(15, 25).Select(i => 0.02 * i).ToList();
        var sealing = charges.First(kg => own.Solve(day, kg, LoopFaults.None).Readings!.Value.SubcoolingK > 0.5);
        var best = charges.MaxBy(kg => ValidationRows.Cop(own.Solve(day, kg, LoopFaults.None).Readings!.Value));
        foreach (var (kg, when) in new[] { (sealing, "just sealed"), (best, "best COP") })
        {
            var a = own.Solve(day, kg, LoopFaults.None).Readings!.Value;
            var b = dropIn.Solve(day, 1.1 * kg, LoopFaults.None).Readings!.Value;
            yield return ValidationRows.Plain(
                "9",
                $"no receiver, R-134a {when}, R-1234yf 110 %: capacity, %",
                "-3.7",
                100 * ((b.CoolingW / a.CoolingW) - 1),
                "0.0"
            );
            yield return ValidationRows.Plain(
                "9",
                $"no receiver, R-134a {when}, R-1234yf 110 %: COP, %",
                "+1.45",
                100 * ((ValidationRows.Cop(b) / ValidationRows.Cop(a)) - 1),
                "0.0"
            );
        }
    }

    /// <summary>The bare cycle, 5 to 55 °C, 8 K of superheat, isentropic: what no machine of equal temperatures gets
    /// around.</summary>
    private static IEnumerable<string> Ideal()
    {
        var plain = IdealCop("R134a", 0);
        yield return ValidationRows.Plain(
            "9",
            "bare cycle, both without subcooling: COP of R-1234yf, %",
            "+1.45",
            100 * ((IdealCop("R1234yf", 0) / plain) - 1),
            "0.0"
        );
        yield return ValidationRows.Plain(
            "9",
            "bare cycle, R-1234yf with 6 K more subcooling: COP, %",
            "+1.45",
            100 * ((IdealCop("R1234yf", 6) / plain) - 1),
            "0.0"
        );
    }

    private static double IdealCop(string refrigerant, double subcoolingK)
    {
        var table = RefrigerantTables.For(refrigerant);
        table.Row(Math.Log(table.SaturationPressurePa(278.15)), out var low);
        table.Row(Math.Log(table.SaturationPressurePa(328.15)), out var high);
        var suction = low.SuperheatedEnthalpy(8);
        return (suction - high.LiquidEnthalpy + (subcoolingK * high.LiquidCp))
            / (high.EnthalpyAtEntropy(low.EntropyAt(suction)) - suction);
    }
}
