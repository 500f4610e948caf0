using Tightcold.Loop.Results;
using Tightcold.Studies.Loops;

namespace Tightcold.Loop.Tests.Laws;

/// <summary>
/// An input moved by 1e-4 of its range moves no reading by more than: 2 % of a pressure and 2 kPa, 0.5 K at the vent,
/// 1.5 K of superheat or subcooling, 0.05 of the duty, 2 % of the cooling and 40 W. Where the model is steep without
/// jumping (a circuit with next to no charge) a few pairs may go further: at most 1 in 2500 (1 of 20 000 found). Of the
/// borders themselves 1 in 50 may jump (19 of 1500 found): there the equations have two answers side by side
/// (docs/physics/loop.md).
/// </summary>
public sealed class SmoothnessTests
{
    private const double Step = 1e-4;

    [Fact]
    public void A_small_step_of_any_input_is_a_small_step_of_every_reading()
    {
        const int pairs = 5000;
        var questions = new TrialQuestions(11);
        int compared = 0,
            beyond = 0;
        for (var i = 0; i < pairs; i++)
        {
            var a = questions.Next();
            if (Furthest(Ask(a), Ask(questions.Nudged(a, Step))) is not { } furthest)
                continue;
            compared++;
            beyond += furthest > 1 ? 1 : 0;
        }

        Assert.True(compared > 0.99 * pairs, $"{compared}");
        Assert.True(beyond <= pairs / 2500, $"{beyond} of {compared} pairs moved further");
    }

    /// <summary>Finds the border by halving between two questions whose regimes differ, and steps over it.</summary>
    [Fact]
    public void Readings_go_over_the_borders_of_regimes_without_a_jump()
    {
        var questions = new TrialQuestions(12);
        var crossed = new HashSet<LoopRegimes>();
        int borders = 0,
            beyond = 0;
        while (borders < 1500)
        {
            var a = questions.Next();
            var input = borders % TrialQuestions.MovableInputs;
            double from = 0,
                to = 0.3;
            var start = Ask(a).Regimes;
            if (Ask(TrialQuestions.Moved(a, input, to)).Regimes == start)
            {
                input = TrialQuestions.MovableInputs - 1;
                if (Ask(TrialQuestions.Moved(a, input, to)).Regimes == start)
                    continue;
            }

            while (to - from > Step)
            {
                var middle = 0.5 * (from + to);
                if (Ask(TrialQuestions.Moved(a, input, middle)).Regimes == start)
                    from = middle;
                else
                    to = middle;
            }

            var (before, after) = (Ask(TrialQuestions.Moved(a, input, from)), Ask(TrialQuestions.Moved(a, input, to)));
            if (Furthest(before, after) is not { } furthest)
                continue;
            borders++;
            crossed.Add(before.Regimes ^ after.Regimes);
            beyond += furthest > 1 ? 1 : 0;
        }

        Assert.True(crossed.Count >= 8, $"{crossed.Count} kinds of borders");
        Assert.True(beyond <= borders / 50, $"{beyond} of {borders} borders crossed with a jump");
    }

    private static LoopResult Ask(TrialQuestion q) => q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults);

    private static double? Furthest(LoopResult before, LoopResult after) =>
        before.Readings is not { } x || after.Readings is not { } y
            ? null
            : new[]
            {
                Over(x.LowSidePa, y.LowSidePa, (0.02 * x.LowSidePa) + 2e3),
                Over(x.LowSideMinPa, y.LowSideMinPa, (0.02 * x.LowSideMinPa) + 2e3),
                Over(x.HighSidePa, y.HighSidePa, 0.02 * x.HighSidePa),
                Over(x.VentK, y.VentK, 0.5),
                Over(x.SuperheatK, y.SuperheatK, 1.5),
                Over(x.SubcoolingK, y.SubcoolingK, 1.5),
                Over(x.Duty, y.Duty, 0.05),
                Over(x.CoolingW, y.CoolingW, (0.02 * Math.Abs(x.CoolingW)) + 40),
            }.Max();

    private static double Over(double before, double after, double tolerance) => Math.Abs(after - before) / tolerance;
}
