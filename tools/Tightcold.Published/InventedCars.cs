using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;
using Tightcold.Studies.Faults;

namespace Tightcold.Published;

/// <summary>Invented cars: calibration, and whether the check of fit tells right from wrong. Model output.</summary>
internal static class InventedCars
{
    public static string Of(int from, int cars)
    {
        var scores = new CarScore[cars];
        Parallel.For(0, cars, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
            scores[i] = CarScore.Of(from + i, Effort.Full)
        );
        var text = new StringBuilder(new CalibrationReport([.. scores]).Text());
        void Line(string what, IEnumerable<CarScore> some)
        {
            var list = some.ToArray();
            if (list.Length == 0)
                return;
            double Share(Func<CarScore, bool> of) => list.Average(one => of(one) ? 1.0 : 0);
            text.Append(
                CultureInfo.InvariantCulture,
                $"{what}: {list.Length} cars, first {Share(one => one.Top1):P1}, "
            );
            text.Append(CultureInfo.InvariantCulture, $"first two {Share(one => one.Top2):P1}; ");
            text.Append(CultureInfo.InvariantCulture, $"fit in the mean {list.Average(one => one.Fit):0.00}, ");
            var outside = Share(one => one.Fit < FaultOdds.FitsAbove);
            text.Append(CultureInfo.InvariantCulture, $"below {FaultOdds.FitsAbove:0.00} in {outside:P1}\n");
        }

        Line("sound cars", scores.Where(one => one.Truth == Hypothesis.NothingWrong));
        Line(
            "cars with a fault on the list",
            scores.Where(one => one.Truth is not (Hypothesis.NothingWrong or Hypothesis.NoneOfThese))
        );
        Line("trouble on no list", scores.Where(one => one.Truth == Hypothesis.NoneOfThese));
        Line("the first is right", scores.Where(one => one.Top1));
        Line("the first is wrong", scores.Where(one => !one.Top1));
        return text.ToString();
    }
}
