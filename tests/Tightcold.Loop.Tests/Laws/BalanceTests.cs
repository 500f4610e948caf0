using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Studies.Loops;

namespace Tightcold.Loop.Tests.Laws;

public sealed class BalanceTests
{
    /// <summary>The short form of the soak: `Tightcold.Studies -- loops --count 2000000` is the long one.</summary>
    [Fact]
    public void Twenty_thousand_random_questions_close_or_name_their_state()
    {
        var questions = new TrialQuestions(20260701);
        var tally = new TrialTally();
        for (var i = 0; i < 20_000; i++)
            tally.Ask(questions.Next());
        Assert.Equal(0, tally.Broken);
        Assert.True(tally.WorstClosure <= TrialTally.Closure, $"{tally.WorstClosure}");
        var notClosed = tally.States.FirstOrDefault(pair => pair.State == LoopState.NotClosed).Count;
        // Known remainder, named in docs/physics/loop.md; a regression of the solver shows here first.
        Assert.True(notClosed <= 40, $"{notClosed} of 20000 did not close");
        Assert.All(Enum.GetValues<LoopState>().Except([LoopState.NotClosed]), state =>
            Assert.Contains(tally.States, pair => pair.State == state && pair.Count > 0)
        );
    }

    [Fact]
    public void Heat_rejected_is_cooling_and_work_less_what_the_shell_and_lines_exchange()
    {
        var result = new LoopModel(new Loop.Designs.LoopDesign()).Solve(LoopConditions.DoorsOpen(308.15, 0.4));
        var cycle = result.Cycle;
        var flow = result.Readings!.Value.FlowKgPerS;
        var cooling = flow * (cycle[0].EnthalpyJPerKg - cycle[5].EnthalpyJPerKg);
        var rejected = flow * (cycle[2].EnthalpyJPerKg - cycle[3].EnthalpyJPerKg);
        Assert.Equal(result.Readings.Value.CoolingW, cooling, 1e-3);
        Assert.Equal(result.Readings.Value.HeatRejectedW, rejected, 1e-3);
        // Once round the corners nothing is left over.
        var round = 0.0;
        for (var i = 0; i < cycle.Length; i++)
            round += cycle[(i + 1) % cycle.Length].EnthalpyJPerKg - cycle[i].EnthalpyJPerKg;
        Assert.Equal(0, round, 1e-6);
        Assert.True(Math.Abs(result.Balance.Energy) < 1e-6);
    }

    [Fact]
    public void A_question_outside_the_stated_range_is_refused_by_name()
    {
        var model = new LoopModel(new Loop.Designs.LoopDesign());
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => model.Solve(LoopConditions.DoorsOpen(400, 0.4)));
        Assert.Contains("AmbientK", refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            model.Solve(LoopConditions.DoorsOpen(300, 0.4) with { EngineRpm = double.NaN })
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            model.Solve(LoopConditions.DoorsOpen(300, 0.4), double.PositiveInfinity, Loop.Faults.LoopFaults.None)
        );
    }

    [Fact]
    public void The_same_question_has_the_same_answer_and_a_near_start_changes_it_by_less_than_the_tolerance()
    {
        var questions = new TrialQuestions(5);
        var far = 0;
        for (var i = 0; i < 400; i++)
        {
            var q = questions.Next();
            var first = q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults);
            Assert.Equal(first.Readings, q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults).Readings);
            var near = q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults, first.Start);
            Assert.Equal(first.State, near.State);
            if (first.Readings is { } a && near.Readings is { } b && Math.Abs(a.HighSidePa - b.HighSidePa) > 50)
                far++;
        }

        Assert.Equal(0, far);
    }

    [Fact]
    public void A_start_that_makes_no_sense_costs_work_and_never_the_answer()
    {
        var questions = new TrialQuestions(11);
        LoopStart[] starts =
        [
            new(double.NaN, 14, 4e5),
            new(0, 0, 0),
            new(40, -40, 1e9),
            new(14, 12, double.NegativeInfinity),
        ];
        for (var i = 0; i < 200; i++)
        {
            var q = questions.Next();
            var cold = q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults);
            foreach (var start in starts)
            {
                var other = q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults, start);
                Assert.Equal(cold.State, other.State);
                if (cold.Readings is { } a)
                    Assert.Equal(a.HighSidePa, other.Readings!.Value.HighSidePa, 50.0);
            }
        }
    }

    // Counted, not timed; plain straight lines took 37 walks in the mean. From a tenth less charge and four kelvin less
    // the straight lines lead across the whole store.
    [Fact]
    public void A_circuit_whose_receiver_is_part_full_is_found_in_few_walks_from_an_emptier_one()
    {
        var design = Loop.Designs.LoopDesigns.Of(
            Loop.Designs.SizeClass.Medium,
            Loop.Designs.CompressorKind.FixedWithFinThermostat,
            Loop.Designs.ExpansionKind.ExpansionValve,
            "R134a",
            0.6
        );
        var model = new LoopModel(design);
        double walks = 0;
        var found = 0;
        for (var i = 0; i < 60; i++)
        {
            double ambient = 297 + (i % 10 * 2),
                charge = design.LabelChargeKg * (0.85 + (0.05 * (i / 10)));
            var from = model.Solve(
                LoopConditions.DoorsOpen(ambient - 4, 0.4),
                charge - (0.1 * design.LabelChargeKg),
                Loop.Faults.LoopFaults.None
            );
            var result = model.Solve(
                LoopConditions.DoorsOpen(ambient, 0.4),
                charge,
                Loop.Faults.LoopFaults.None,
                from.Start
            );
            if (result.Readings is not { StoreLevel: > 0.05 and < 0.95 })
                continue;
            walks += result.Solver.Marches;
            found++;
        }

        Assert.InRange(found, 20, 60);
        Assert.InRange(walks / found, 1, 20);
    }

    [Fact]
    public void A_switch_set_half_a_bar_too_high_opens_and_closes_half_a_bar_too_high()
    {
        var model = new LoopModel(
            LoopDesigns.Of(SizeClass.Medium, CompressorKind.FixedCycling, ExpansionKind.OrificeTube, "R134a")
        );
        // Little air over the coil: the clutch cycles.
        LoopReadings At(double offset) =>
            model
                .Solve(
                    LoopConditions.DoorsOpen(300, 0.4),
                    model.Design.LabelChargeKg,
                    new LoopFaults { EvaporatorAirLoss = 0.7, SwitchOffsetPa = offset }
                )
                .Readings!.Value;
        var (right, high) = (At(0), At(0.5e5));
        Assert.True(right.CyclesPerMinute > 0 && high.CyclesPerMinute > 0);
        Assert.Equal(0.5e5, high.LowSideMinPa - right.LowSideMinPa, 0.1e5);
        Assert.Equal(0.5e5, high.LowSideMaxPa - right.LowSideMaxPa, 0.1e5);
    }
}
