using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Acceptance;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Studies.Cold;

/// <summary>What the trial of the proof of cold prints.</summary>
internal static class ColdText
{
    public static string Run(int cars, int seed)
    {
        var rates = ColdTrial.Run(LoopCars.Of(new CarKnowledge("R134a")), cars, cars, seed);
        var healthy = rates.Where(rate => rate.Fault == CarFault.None).ToArray();
        var faulty = rates.Where(rate => rate.Fault != CarFault.None).ToArray();
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line(
            $"| simulated cars | cars | called healthy | cannot tell | called sick | 4 K or more too warm | of those called healthy |"
        );
        Line($"|---|---|---|---|---|---|---|");
        foreach (var rate in rates)
            Line(
                $"| {Words(rate.Fault)} | {rate.Cars} | {rate.CalledHealthy} | {rate.CannotTell} | {rate.CalledSick} | {rate.Felt} | {rate.FeltCalledHealthy} |"
            );
        var felt = faulty.Sum(rate => rate.Felt);
        Line(
            $"healthy called sick: {(double)healthy.Sum(rate => rate.CalledSick) / healthy.Sum(rate => rate.Cars):0.000}"
        );
        Line(
            $"faulty called healthy: {(double)faulty.Sum(rate => rate.CalledHealthy) / faulty.Sum(rate => rate.Cars):0.000}"
        );
        if (felt > 0)
            Line($"of those 4 K or more too warm: {(double)faulty.Sum(rate => rate.FeltCalledHealthy) / felt:0.000}");
        Line($"The cars are simulated by a model of another build; the rates say nothing of cars unlike them.");
        return text.ToString();
    }

    private static string Words(CarFault fault) =>
        fault switch
        {
            CarFault.None => "healthy",
            CarFault.Undercharge => "too little refrigerant",
            CarFault.WeakCompressor => "weak compressor",
            CarFault.BlockedCondenser => "condenser short of air",
            CarFault.AirOrOvercharge => "air inside or too much",
            _ => "blend door lets heat in",
        };
}
