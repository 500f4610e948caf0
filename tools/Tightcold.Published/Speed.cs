using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Studies.Faults;

namespace Tightcold.Published;

/// <summary>Processor time of an answer on one core, over invented cars read at five ways of running: unlike the clock
/// it does not hang on what else the machine does.</summary>
internal static class Speed
{
    private static readonly ImmutableArray<(double Rpm, Aid Aid)> Five =
    [
        (850, Aid.None),
        (1500, Aid.None),
        (2000, Aid.None),
        (1500, Aid.Fan),
        (1200, Aid.None),
    ];

    public static string Of(int from, int cars)
    {
        var asked = Enumerable.Range(from, cars).Select(CarLottery.Draw).Select(At).ToArray();
        for (var i = 0; i < 2; i++)
            Diagnoser.Diagnose(asked[0], Effort.Full, 1);
        return Line("first picture", asked, Effort.Quick) + Line("answer", asked, Effort.Full);
    }

    private static string Line(string what, DiagnosisEvidence[] asked, Effort effort)
    {
        using var self = Process.GetCurrentProcess();
        var times = new double[asked.Length];
        for (var i = 0; i < asked.Length; i++)
        {
            var before = self.TotalProcessorTime;
            Diagnoser.Diagnose(asked[i], effort, 1);
            self.Refresh();
            times[i] = (self.TotalProcessorTime - before).TotalMilliseconds;
        }

        Array.Sort(times);
        var (middle, most) = (times[times.Length / 2], times[^1]);
        return string.Create(CultureInfo.InvariantCulture, $"{what}: {middle:0} ms in the middle, {most:0} at most\n");
    }

    private static DiagnosisEvidence At(SimulatedCar car)
    {
        var first = car.Evidence.Points[0];
        var channels = first.Readings.Select(reading => reading.Channel).Distinct().ToImmutableArray();
        var chance = new Chance(9);
        var read = Five.Select(one =>
            car.Read(first with { EngineRpm = one.Rpm, Aid = one.Aid, Readings = [] }, channels, chance)
        );
        return car.Evidence with { Points = [.. read.OfType<OperatingPoint>()] };
    }
}
