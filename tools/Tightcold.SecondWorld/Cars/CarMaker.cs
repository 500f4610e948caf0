using Tightcold.Numerics.Roots;
using Tightcold.Numerics.Sampling;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// The population of the second world. Sizes are those of the trade (from memory); levels of pump, condenser and air
/// were then set by hand until sound cars lay among the published charts (docs/validation-outside.md says which rows),
/// before the product's models were looked at.
/// </summary>
public static class CarMaker
{
    private static readonly Setup Nominal = new()
    {
        AmbientC = 30,
        Humidity = 0.5,
        EngineRpm = 1500,
        OutsideShare = 0.9,
    };

    public static CarBuild Draw(SeededChance chance)
    {
        ArgumentNullException.ThrowIfNull(chance);
        var yf = chance.Chance(0.3);
        var tube = chance.Chance(0.3);
        var control =
            chance.Chance(0.45) ? Control.VariableStroke
            : tube ? Control.PressureSwitch
            : Control.Thermostat;
        return Build(chance, yf ? "R1234yf" : "R134a", tube ? Device.OrificeTube : Device.ExpansionValve, control);
    }

    // Labels of passenger cars with one evaporator; what falls outside is drawn again.
    private const double LeastLabelKg = 0.33;
    private const double MostLabelKg = 1.2;

    /// <summary>A car of a wanted kind, its parts drawn.</summary>
    public static CarBuild Build(SeededChance chance, string refrigerant, Device device, Control control)
    {
        ArgumentNullException.ThrowIfNull(chance);
        CarBuild car;
        do car = Parts(chance, refrigerant, device, control);
        while (car.LabelKg is < LeastLabelKg or > MostLabelKg);
        return car;
    }

    private static CarBuild Parts(SeededChance chance, string refrigerant, Device device, Control control)
    {
        var yf = refrigerant == "R1234yf";
        var tube = device == Device.OrificeTube;
        var variable = control == Control.VariableStroke;
        double Spread(double middle, double log) => middle * Math.Exp(log * chance.Normal());
        var size = Spread(1, 0.12);
        var fan = Spread(1, 0.12);
        var free = 1.0 * fan * Math.Sqrt(size);
        var car = new CarBuild
        {
            Refrigerant = refrigerant,
            Device = device,
            Control = control,
            DisplacementM3 = size * Spread(variable ? 160e-6 : 142e-6, 0.1),
            ClearanceRatio = Spread(0.045, 0.15),
            BlowByAreaM2 = Spread(0.12e-6, 0.5),
            IsentropicShare = Math.Min(0.8, Spread(0.7, 0.05)),
            PulleyRatio = chance.Between(1.15, 1.5),
            SetPressurePa = (yf ? 0.25e5 : 0) + 2.95e5 + 0.12e5 * chance.Normal(),
            StrokeBandPa = Spread(0.35e5, 0.2),
            CutOutPa = 1.01e5 + 1.6e5 + 0.1e5 * chance.Normal(),
            CutInPa = 1.01e5 + 3.05e5 + 0.12e5 * chance.Normal(),
            ThermostatOffC = 2.5 + 0.8 * chance.Normal(),
            ThermostatOnC = 5.5 + 0.8 * chance.Normal(),
            HighCutOutPa = 1.01e5 + 27.5e5 + 1e5 * chance.Normal(),
            HighCutInPa = 1.01e5 + 20e5 + 1.5e5 * chance.Normal(),
            CondenserAirWPerK = size * Spread(560, 0.15),
            CondenserRefrigerantWPerK = size * Spread(2700, 0.15),
            CondenserVolumeM3 = size * Spread(tube ? 0.65e-3 : 0.5e-3, 0.12),
            SubcoolShare = tube || chance.Chance(0.35) ? 0 : chance.Between(0.12, 0.22),
            CondenserDropAtNominalPa = Spread(0.7e5, 0.25),
            FanPressurePa = 150 * fan * fan,
            FanFreeM3PerS = free,
            CorePaPerM6S2 = Spread(260, 0.15) / size,
            EngineDrivenFan = chance.Chance(0.12),
            SecondFanOnPa = 1e5 + chance.Between(14e5, 18e5),
            FirstFanShare = chance.Chance(0.5) ? 1 : chance.Between(0.45, 0.75),
            HotReturnIdle = chance.Between(0.04, 0.22),
            EvaporatorAirWPerK = size * Spread(240, 0.18),
            EvaporatorRefrigerantWPerK = size * Spread(1500, 0.15),
            EvaporatorVolumeM3 = size * Spread(0.65e-3, 0.15),
            SuctionDropAtNominalPa = Spread(0.22e5, 0.25),
            BlowerKgPerS = size * Spread(0.128, 0.13),
            DuctGainK = chance.Between(0.5, 4),
            CabinLoadW = chance.Between(700, 1800),
            ValveAreaM2 = size * Spread(yf ? 1.6e-6 : 1.4e-6, 0.1),
            ValveStaticPa = 0.33e5 + 0.06e5 * chance.Normal(),
            ValveBandPa = Spread(0.5e5, 0.15),
            ValveMaxPa = 1.01e5 + chance.Between(3.6e5, 4.6e5),
            OrificeAreaM2 = size * Spread(yf ? 1.85e-6 : 1.65e-6, 0.07),
            InnerExchangerShare = yf && chance.Chance(0.4) ? chance.Between(0.2, 0.4) : 0,
            StoreVolumeM3 = tube ? Spread(0.62e-3, 0.12) : Spread(0.33e-3, 0.15),
            LiquidLineM3 = Spread(0.09e-3, 0.2),
            SuctionLineM3 = Spread(0.35e-3, 0.2),
            DischargeLineM3 = Spread(0.16e-3, 0.2),
            CrankcaseM3 = Spread(0.35e-3, 0.2),
            OilKg = Spread(0.13, 0.2),
            SightGlass = !tube && !yf && chance.Chance(0.6),
            HighPortOnLiquidLine = chance.Chance(0.55),
        };
        return car with { LabelKg = Label(car, tube ? chance.Between(0.4, 0.65) : chance.Between(0.4, 0.7)) };
    }

    /// <summary>
    /// The charge at which the store is filled to a level in the maker's nominal test, to whole 10 g.
    /// </summary>
    private static double Label(CarBuild car, double level)
    {
        var circuit = new Circuit(car, new Condition(), Nominal);
        // The level jumps with the way the parts are filled, and a circuit starts from where it stood last.
        var (_, condensingPa) = Halving.Narrow(pascals => circuit.At(pascals).StoreLevel >= level, 4e5, 30e5, 24);
        return Math.Round(circuit.At(condensingPa).MassKg, 2);
    }
}
