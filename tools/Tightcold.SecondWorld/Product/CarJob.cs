using Tightcold.Jobs.Journals;
using Tightcold.SecondWorld.Cars;

namespace Tightcold.SecondWorld.Product;

/// <summary>A case of the second world written down as a job.</summary>
internal static class CarJob
{
    private const double Kelvin = 273.15;

    public static JobRecord Of(CarCase one) => Begun(one, 0, out _).Record();

    /// <summary>An earlier visit that ended well: the vent is read for the proof of cold as well.</summary>
    public static JobRecord Earlier(CarCase sound)
    {
        var job = Begun(sound, 1, out var minute);
        foreach (var point in sound.Points.Where(point => !point.Setup.FanAid))
            job.At(
                minute += 5,
                "vent-reading",
                ("vent-temperature", point.VentC + Kelvin),
                ("ambient-temperature", point.AmbientC + Kelvin),
                ("relative-humidity", point.Humidity),
                ("cabin-temperature", point.InletC + Kelvin),
                ("air-source", point.Setup.Recirculated ? "recirculated" : "fresh"),
                ("blower", "full"),
                ("engine-speed", Math.Round(point.Setup.EngineRpm / 10) * 10 / 60),
                ("moving", "parked in shade"),
                ("since-start", 15 * 60.0)
            );
        return job.Record();
    }

    private static JobBuilder Begun(CarCase one, int yearsAgo, out double minute)
    {
        var first = one.Points[0];
        var job = new JobBuilder(
            (int)(one.Seed % 100000),
            yearsAgo,
            ("refrigerant", one.Car.Refrigerant == "R1234yf" ? "R-1234yf" : "R-134a"),
            ("label-charge", one.Car.LabelKg),
            (
                "compressor",
                one.Car.Control switch
                {
                    Control.PressureSwitch => "fixed, cycling",
                    Control.Thermostat => "fixed",
                    _ => "variable",
                }
            ),
            ("device", one.Car.Device == Device.ExpansionValve ? "expansion valve" : "orifice tube")
        );
        job.At(0, "weather", ("ambient-temperature", first.AmbientC + Kelvin), ("relative-humidity", first.Humidity));
        job.At(
            5,
            "standing-reading",
            ("low-side", one.StandingPa),
            ("high-side", one.StandingPa),
            ("ambient-temperature", first.AmbientC + Kelvin),
            ("since-engine-ran", 600 * 60.0)
        );
        minute = 20;
        foreach (var point in one.Points)
            job.At(minute += 12, "running-reading", [.. Fields(point)]);
        // What later journals may take: the stop, seen on both gauges.
        if (first.ClutchIn)
        {
            job.At(minute + 2, "after-stop", ("equal-after", one.EqualAfterS), ("high-side-fall", one.FallAtStopPa));
        }
        return job;
    }

    private static IEnumerable<(string, object)> Fields(PointRead point)
    {
        yield return ("low-side", point.LowMinPa);
        if (point.LowMaxPa > point.LowMinPa)
            yield return ("low-side-swing-to", point.LowMaxPa);
        yield return (
            "high-side",
            point.HighMaxPa > point.HighMinPa ? 0.5 * (point.HighMinPa + point.HighMaxPa) : point.HighMinPa
        );
        if (point.HighMaxPa > point.HighMinPa)
            yield return ("high-side-swing-to", point.HighMaxPa);
        var cycling = point.ClutchIn && point.CyclesPerMinute > 0;
        if (cycling)
            yield return ("cycles-per-minute", point.CyclesPerMinute);
        yield return (
            "clutch",
            !point.ClutchIn ? "off"
            : cycling ? "cycling"
            : "on"
        );
        yield return ("engine-speed", Math.Round(point.Setup.EngineRpm / 10) * 10 / 60);
        yield return ("blower", "full");
        yield return ("air-source", point.Setup.Recirculated ? "recirculated" : "fresh");
        yield return ("doors", point.Setup.OutsideShare > 0.6 ? "open" : "closed");
        if (point.Setup.FanAid)
            yield return ("aid", "fan on condenser");
        yield return ("ambient-temperature", point.AmbientC + Kelvin);
        yield return ("relative-humidity", point.Humidity);
        yield return ("vent-temperature", point.VentC + Kelvin);
        yield return ("cabin-temperature", point.InletC + Kelvin);
        yield return ("suction-line-temperature", point.SuctionLineC + Kelvin);
        yield return ("liquid-line-temperature", point.LiquidLineC + Kelvin);
        yield return ("discharge-line-temperature", point.DischargeLineC + Kelvin);
        if (point.Glass != Glass.NotThere)
        {
            yield return (
                "sight-glass",
                point.Glass switch
                {
                    Glass.Clear => "clear",
                    Glass.Bubbles => "bubbles",
                    _ => "milky",
                }
            );
        }
        yield return (
            "frost",
            point.Frost switch
            {
                Frost.ValveOrEvaporatorInlet => "at the expansion device",
                Frost.SuctionLine => "on the suction line",
                Frost.LiquidLineOrDrier => "on the drier",
                _ => "none",
            }
        );
        yield return ("vent-air", point.WeakAir ? "weak" : "strong");
    }
}
