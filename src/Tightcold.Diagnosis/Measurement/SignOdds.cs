using Tightcold.Diagnosis.Faults;
using Tightcold.Loop.Faults;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// How likely a sign is for a car: from its modelled state where the model has it, else stated odds from trade teaching
/// (docs/physics/diagnosis.md has the table). Within a group the odds of all outcomes sum to 1, and none is ever
/// nought: people look wrong, and feel wrong more often.
/// </summary>
internal static class SignOdds
{
    /// <summary>Odds of a sign for a car.</summary>
    /// <param name="sign">What was found.</param>
    /// <param name="faults">The explanation's faults.</param>
    /// <param name="car">How bad they are.</param>
    /// <param name="row">The car at the first way of running, a row of <see cref="Predicted.Width"/>; empty without
    /// any.</param>
    /// <param name="tube">Orifice tube in place of a valve.</param>
    public static double Of(Sign sign, IReadOnlyList<Fault> faults, LoopFaults car, ReadOnlySpan<double> row, bool tube)
    {
        foreach (var group in SignGroups.All)
        {
            var place = group.IndexOf(sign);
            if (place < 0)
                continue;
            Span<double> odds = stackalloc double[group.Length];
            Fill(group[0], faults, new(car, row, tube), odds);
            return odds[place];
        }

        throw new ArgumentOutOfRangeException(nameof(sign), sign, "No such sign.");
    }

    /// <summary>Outcomes for a car of no known kind: a quarter by chance, else as a sound car's.</summary>
    public static double Anything(Sign sign) =>
        (0.25 / SignGroups.Of(sign).Length) + (0.75 * Of(sign, [], LoopFaults.None, [], tube: false));

    /// <summary>Of two faults that both speak, the one that takes the outcome farther from a sound car's is seen.</summary>
    private static void Fill(Sign look, IReadOnlyList<Fault> faults, Looked at, Span<double> odds)
    {
        Sound(look, at, odds);
        Span<double> own = stackalloc double[odds.Length];
        var (sound, farthest) = (odds[0], -1.0);
        for (var i = 0; i < faults.Count; i++)
        {
            if (!faults[i].Signs(look, at, own) || Math.Abs(own[0] - sound) <= farthest)
                continue;
            farthest = Math.Abs(own[0] - sound);
            own.CopyTo(odds);
        }
    }

    /// <summary>A car of which no fault speaks, the likeliest outcome first.</summary>
    private static void Sound(Sign look, Looked at, Span<double> odds)
    {
        ReadOnlySpan<double> all = look switch
        {
            Sign.FanRuns => at.Off ? [0.50, 0.08, 0.42] : [0.93, 0.04, 0.03],
            Sign.CoolsSteadily => [0.84, 0.04, 0.05, 0.07],
            Sign.SidesEqualAtOnce => at.Tube ? [0.12, 0.13, 1 - 0.12 - 0.13] : [0.07, 0.13, 1 - 0.07 - 0.13],
            Sign.NoStepAlongLiquidLine => [1 - 0.05 - 0.06, 0.05, 0.06],
            Sign.NeedlesSteady => at.Cycles ? [0.30, 0.65, 0.05] : [0.87, 0.08, 0.05],
            Sign.OilClean => [0.92, 0.06, 0.02],
            Sign.BeltRight => at.Off ? [0.15, 0.02, 0.83] : [0.95, 0.04, 0.01],
            _ => [],
        };
        if (!all.IsEmpty)
        {
            all.CopyTo(odds);
            return;
        }

        odds[0] = look switch
        {
            Sign.ColdAgainAfterRest => 0.12,
            Sign.LowPipeCold => at.LowPipeCold,
            Sign.HosePinchedColder => 0.05,
            Sign.AirStrong or Sign.VentsAlike => 0.93,
            Sign.NoHotAirAtInlet or Sign.SensorAgreesWithGauge => 0.96,
            Sign.ValveAskedFor => 0.85,
            // A circuit too empty for its pressure switch gets none either.
            Sign.VoltageAtClutch => at.Off ? 0.10 : 0.95,
            Sign.FoamAtLowerRevs => 0.60,
            Sign.EngineTemperatureRight => 0.95,
            _ => 0.86,
        };
        odds[1] = 1 - odds[0];
    }
}
