using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

namespace Tightcold.Published;

/// <summary>A printed row as somebody with dial gauges and a probe would bring it.</summary>
internal static class Question
{
    private const double AirPa = 101_325;
    private const double ZeroK = 273.15;

    // Dial gauges of class 1.6 and their steps, a probe; common practice.
    private const double LowSigmaPa = 0.14e5,
        LowStepPa = 0.1e5,
        HighSigmaPa = 0.28e5,
        HighStepPa = 0.5e5,
        VentSigmaK = 0.8;

    public static DiagnosisEvidence Of(PublishedRow row, ReadingReason why)
    {
        var point = Point(row);
        return new DiagnosisEvidence(Car(row))
        {
            Points = [point with { Readings = [.. Readings(row)] }],
            Why = why,
            Signs = [.. row.Seen.Select(pair => SignOf(pair.Key, pair.Value)).OfType<Sign>()],
        };
    }

    /// <summary>The same for the fit: the middle of what is printed, no surer than half the printed range.</summary>
    public static OperatingPoint ForFit(PublishedRow row)
    {
        var readings = Readings(row)
            .Select(reading =>
                reading.Channel switch
                {
                    Channel.LowSide => reading with
                    {
                        SigmaInstrument = Sigma(0.07e5, 1e5 * row.Low!.Value.Half),
                        Step = 0,
                    },
                    Channel.HighSide => reading with
                    {
                        SigmaInstrument = Sigma(0.15e5, 1e5 * row.High!.Value.Half),
                        Step = 0,
                    },
                    _ => reading with { SigmaInstrument = Sigma(0.5, row.Vent!.Value.Half), Step = 0 },
                }
            );
        return Point(row) with { Readings = [.. readings], Glass = GlassSeen.NotLooked };
    }

    private static double Sigma(double least, double half) => Math.Sqrt((least * least) + (0.25 * half * half));

    public static CarKnowledge Car(PublishedRow row) =>
        new(row.Refrigerant.Length == 0 ? "R134a" : row.Refrigerant)
        {
            Compressor = row.Compressor switch
            {
                "fixed" => CompressorKind.FixedWithFinThermostat,
                "cycling" => CompressorKind.FixedCycling,
                "variable" => CompressorKind.Variable,
                "electric" => CompressorKind.Electric,
                _ => null,
            },
            Expansion = row.Device switch
            {
                "valve" => ExpansionKind.ExpansionValve,
                "tube" => ExpansionKind.OrificeTube,
                _ => null,
            },
        };

    public static OperatingPoint Point(PublishedRow row)
    {
        // Where no weather is printed, a workshop's warm day.
        var air = row.Air ?? new(25, 35);
        var recirculated = row.Intake.StartsWith("recirculated", StringComparison.Ordinal);
        var atInlet = row.Intake.EndsWith("inlet", StringComparison.Ordinal);
        var (rpm, rpmSigma) = row.Rpm switch
        {
            "idle" => (800.0, 0.1),
            "" => (1200, 0.3),
            "electric" => (1200, 0.3),
            _ => (double.Parse(row.Rpm, System.Globalization.CultureInfo.InvariantCulture), 0.05),
        };
        var inlet = air.Middle + ZeroK;
        return new OperatingPoint
        {
            AmbientK = inlet,
            AmbientSigmaK = Math.Max(1, air.Half * 0.6) + (atInlet ? 1 : 0),
            RelativeHumidity = row.Humidity is { } rh ? rh.Middle / 100 : 0.5,
            HumiditySigma = row.Humidity is { } known ? Math.Max(0.03, known.Half / 170) : 0.15,
            EngineRpm = rpm,
            EngineSigma = rpmSigma,
            BlowerShare = row.Blower switch
            {
                "medium" => 0.7,
                "low" => 0.4,
                _ => 1,
            },
            FreshShare = recirculated ? 0.05 : 1,
            IntakeSaid = row.Intake.Length > 0,
            CabinK = atInlet ? inlet : null,
            CabinRelativeHumidity = atInlet && row.Humidity is { } damp ? damp.Middle / 100 : null,
            Doors = row.Doors switch
            {
                "open" => DoorsAre.Open,
                "windows-open" => DoorsAre.WindowsOpen,
                "closed" => DoorsAre.Closed,
                _ => DoorsAre.NotSaid,
            },
            Frost = row.Seen.GetValueOrDefault("frost") switch
            {
                "throttle" => FrostSeen.AtThrottle,
                "drier" => FrostSeen.OnDrier,
                "suction" => FrostSeen.OnSuctionLine,
                _ => FrostSeen.NotLooked,
            },
            Glass = row.Seen.GetValueOrDefault("glass") switch
            {
                "clear" => GlassSeen.Clear,
                "bubbles" => GlassSeen.Bubbles,
                _ => GlassSeen.NotLooked,
            },
        };
    }

    private static Sign? SignOf(string what, string how) =>
        (what, how) switch
        {
            ("cools", "comes-and-goes") => Sign.ComesAndGoes,
            ("after-stop", "equal-at-once") => Sign.SidesEqualAtOnce,
            ("after-stop", "falls-fast") => Sign.HighFallsFastThenSlowly,
            ("low-pipe", "not-cold") => Sign.LowPipeNotCold,
            ("low-pipe", "cold") => Sign.LowPipeCold,
            ("lower-revs", "no-foam") => Sign.NoFoamAtLowerRevs,
            ("needle", "low-swings") => Sign.LowNeedleSwings,
            ("glass" or "frost", _) => null,
            _ => throw new FormatException($"rows.csv: “{what}={how}” is no sign."),
        };

    private static IEnumerable<Reading> Readings(PublishedRow row)
    {
        if (row.Low is { } low)
            yield return new(Channel.LowSide, AirPa + (1e5 * low.Middle), LowSigmaPa, LowStepPa);
        if (row.High is { } high)
            yield return new(Channel.HighSide, AirPa + (1e5 * high.Middle), HighSigmaPa, HighStepPa);
        if (row.Vent is { } vent)
            yield return new(Channel.Vent, ZeroK + vent.Middle, VentSigmaK, 0.1);
    }
}
