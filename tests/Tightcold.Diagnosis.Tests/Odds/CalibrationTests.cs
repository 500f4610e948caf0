using Tightcold.Diagnosis.Inference;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>A small cut of the study in docs/validation-diagnosis.md; the large one is tightcold study diagnosis.
/// Bounds are three standard errors of so few cars about the large study's figures.</summary>
public sealed class CalibrationTests
{
    private const int Cars = 24;
    private static readonly CalibrationReport Report = new([
        .. Enumerable.Range(1000, Cars).Select(number => CarScore.Of(number, Effort.Quick)),
    ]);

    [Fact]
    public void The_diagnosis_beats_the_trades_symptom_table_on_invented_cars()
    {
        Assert.True(
            Report.Scores.Average(score => score.Brier) < Report.Scores.Average(score => score.TableBrier) - 0.05,
            Report.Text()
        );
        Assert.True(
            Report.Scores.Count(score => score.Top2) > Report.Scores.Count(score => score.TableTop2),
            Report.Text()
        );
    }

    [Fact]
    public void Nine_tenths_intervals_of_charge_hold_the_true_charge_about_that_often() =>
        Assert.True(Report.ChargeCoverage > 0.70, Report.Text());

    [Fact]
    public void Faults_said_with_high_odds_are_there() =>
        Assert.True(
            Report.Scores.Where(score => score.TopOdds > 0.95).All(score => score.Top1)
                || Report.Scores.Where(score => score.TopOdds > 0.95).Average(score => score.Top1 ? 1.0 : 0) > 0.75,
            Report.Text()
        );
}
