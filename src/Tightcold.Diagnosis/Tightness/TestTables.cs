using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Every hold, pressure test and loss of the evidence as tables, made once.</summary>
internal sealed class TestTables
{
    private readonly TestTable[] holds,
        nitrogen;
    private readonly TightnessEvidence of;
    private readonly int most;

    private TestTables(
        TightnessEvidence of,
        int most,
        TestTable[] holds,
        TestTable[] nitrogen,
        CircuitTest[] tests,
        ImmutableArray<MassLoss> losses,
        double[] water
    )
    {
        (this.of, this.most) = (of, most);
        this.holds = holds;
        this.nitrogen = nitrogen;
        Tests = tests;
        Losses = losses;
        Water = water;
    }

    /// <summary>Holds first, then nitrogen, then losses.</summary>
    public CircuitTest[] Tests { get; }
    public ImmutableArray<MassLoss> Losses { get; }

    /// <summary>Odds of every mass of water before the holds.</summary>
    public double[] Water { get; }

    public TestTable Hold(int i) => holds[i];

    /// <param name="before">Of a moment ago: a test that stands there as it was read is not tabled again.</param>
    public static TestTables Of(TightnessEvidence evidence, TestTables? before = null)
    {
        var size = evidence.Size;
        var air = evidence.Setting.BarometerPa;
        var water = WaterPrior.Of(evidence.Water, size.AmbientK);
        var most = evidence.Question.Effort == TightnessEffort.Glance ? Thinned.AtAGlance : Thinned.Most;
        var last = before is not null && before.most == most && before.of.Setting.BarometerPa == air ? before : null;
        var inTheSameCar = last is not null && last.of.Size == size && last.Water.AsSpan().SequenceEqual(water);
        var holds = evidence
            .Holds.Select(hold =>
                (inTheSameCar ? last!.Known(hold) : null) ?? HoldTable.Of(hold, size, air, water, most)
            )
            .ToArray();
        var nitrogen = evidence
            .Nitrogen.Select(test => last?.Known(test) ?? NitrogenTable.Of(test, air, most))
            .ToArray();
        ImmutableArray<MassLoss> losses =
        [
            .. evidence.Losses,
            .. MassTable.Of(evidence.Charges),
            .. evidence.Standings.SelectMany(watch => MassTable.Of(watch, size, evidence.Setting)),
        ];
        CircuitTest[] tests =
        [
            .. evidence.Holds.Select(
                (hold, i) =>
                    CircuitTest.Of(hold, holds[i], evidence.Setting, hold.Readings[0].TemperatureK ?? size.AmbientK)
            ),
            .. evidence.Nitrogen.Select(
                (test, i) =>
                    CircuitTest.Of(test, nitrogen[i], evidence.Setting, test.Readings[0].TemperatureK ?? size.AmbientK)
            ),
            .. losses.Select(CircuitTest.Of),
        ];
        return new(evidence, most, holds, nitrogen, tests, losses, water);
    }

    private TestTable? Known(VacuumHold hold)
    {
        for (var i = 0; i < holds.Length; i++)
            if (
                hold with { Readings = of.Holds[i].Readings } == of.Holds[i]
                && hold.Readings.SequenceEqual(of.Holds[i].Readings)
            )
                return holds[i];
        return null;
    }

    private TestTable? Known(NitrogenTest test)
    {
        for (var i = 0; i < nitrogen.Length; i++)
            if (
                test with { Readings = of.Nitrogen[i].Readings } == of.Nitrogen[i]
                && test.Readings.SequenceEqual(of.Nitrogen[i].Readings)
            )
                return nitrogen[i];
        return null;
    }

    public CircuitTest[] Until(double time) => [.. Tests.Where(test => test.Time <= time)];

    public ImmutableArray<TestReading> Readings(TightnessEvidence evidence, double lastChange)
    {
        var readings = ImmutableArray.CreateBuilder<TestReading>();
        for (var i = 0; i < holds.Length; i++)
            readings.Add(
                Reading(
                    TightnessTestKind.VacuumHold,
                    i,
                    Tests[i],
                    holds[i],
                    evidence,
                    evidence.Holds[i].HosesAlone ? evidence.Size.HoseVolumeM3 : evidence.Size.VolumeM3,
                    lastChange
                )
            );
        for (var i = 0; i < nitrogen.Length; i++)
            readings.Add(
                Reading(
                    TightnessTestKind.NitrogenDecay,
                    i,
                    Tests[holds.Length + i],
                    nitrogen[i],
                    evidence,
                    evidence.Size.VolumeM3,
                    lastChange
                )
            );
        return readings.ToImmutable();
    }

    /// <summary>The test by itself, from even odds and a rate of unknown size: laws of flow and volume widen the
    /// rate.</summary>
    private static TestReading Reading(
        TightnessTestKind kind,
        int index,
        CircuitTest test,
        TestTable table,
        TightnessEvidence evidence,
        double volumeM3,
        double lastChange
    )
    {
        const int Steps = 5;
        var inflow = new List<(double, double)>();
        var rate = new List<(double, double)>();
        var top = table.Raw.Max();
        for (var q = 0; q < FlowGrid.Count; q++)
        {
            var weight = Math.Exp(table.Raw[q] - top) * (q == 0 ? 1 : 1.0 / (FlowGrid.Count - 1));
            for (var v = 0; v < Steps; v++)
            {
                var volume = volumeM3 * Math.Exp(evidence.Size.VolumeSpread * Normal.Quantile((v + 0.5) / Steps));
                inflow.Add((FlowGrid.Values[q] * volume, weight / Steps));
                for (var law = 0; law < Steps; law++)
                    rate.Add(
                        (
                            FlowGrid.Values[q]
                                * volume
                                / Math.Exp(test.LogFactor(CircuitTest.LawAt((law + 0.5) / Steps))),
                            weight / (Steps * Steps)
                        )
                    );
            }
        }
        var floor = table.FloorPaPerS * volumeM3;
        var high = Math.Min(test.LogFactor(CircuitTest.LawAt(0.05)), test.LogFactor(CircuitTest.LawAt(0.95)));
        return new(
            kind,
            index,
            LeakQuantiles.Of(inflow),
            LeakQuantiles.Of(rate),
            floor / Math.Exp(test.LogFactor(CircuitTest.LawAt(0.5))),
            floor * Math.Exp(1.645 * evidence.Size.VolumeSpread) / Math.Exp(high),
            table.Shows,
            table.Quality,
            test.Time > lastChange
        );
    }
}
