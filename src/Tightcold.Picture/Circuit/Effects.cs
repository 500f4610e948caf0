using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kinds;
using Tightcold.Picture.Pressures;

namespace Tightcold.Picture.Circuit;

/// <summary>How each effect that a kind of entry names changes what is in the circuit.</summary>
internal static class Effects
{
    /// <summary>A reading within so many standard deviations of the surrounding air is none above it.</summary>
    private const double SigmasFromAir = 2;

    /// <summary>Below this a circuit has been pulled down, whoever did not write down the pump, Pa absolute; a fifth of
    /// the air.</summary>
    private const double PulledDownPa = 20e3;

    /// <summary>A change on the scale from which the charge is another one, kg.</summary>
    private const double AnotherChargeKg = 0.005;

    /// <summary>Above the air by this, Pa: no leak into a vacuum gives it. Half a bar is more than any gauge's
    /// error.</summary>
    private const double FilledPa = 50e3;

    /// <summary>A high side above the air by this, Pa, and a vent below the air by this, K, need refrigerant;
    /// assumed.</summary>
    private const double PressedPa = 4e5,
        CooledK = 8;

    private delegate CircuitState Effect(JobRecord record, Entry entry, CircuitState before);

    public static CircuitState Of(JobRecord record, Entry entry, CircuitState before) =>
        Change(EntryKinds.Kind(entry.Kind).Effect)(record, entry, before);

    private static Effect Change(CircuitEffect effect) =>
        effect switch
        {
            CircuitEffect.None => Nothing,
            CircuitEffect.ReadAtRest => Standing,
            CircuitEffect.ReadRunning => Runs,
            CircuitEffect.TakesOut => Recovered,
            CircuitEffect.Opens => Opened,
            CircuitEffect.Closes => Closed,
            CircuitEffect.Changes => Changed,
            CircuitEffect.MovesOil => (_, _, before) => Another(before),
            CircuitEffect.Pumps => Pump,
            CircuitEffect.ReadsVacuum => Vacuum,
            CircuitEffect.TestGas => Nitrogen,
            CircuitEffect.MovesContainer => Container,
            CircuitEffect.Weighs => Scale,
            CircuitEffect.ClosesJob => State,
            _ => throw new ArgumentOutOfRangeException(nameof(effect), effect, "no such effect"),
        };

    private static CircuitState Nothing(JobRecord record, Entry entry, CircuitState before) => before;

    private static CircuitState Another(CircuitState before) => before with { Epoch = before.Epoch + 1 };

    /// <summary>Pump, hold and open valve end where an entry could not be if they went on.</summary>
    private static CircuitState AtRest(CircuitState before) => before with { PumpingSince = null, Holding = null };

    private static CircuitState Standing(JobRecord record, Entry entry, CircuitState before)
    {
        var sides = new[]
        {
            Gauges.Read(record, entry, FieldNames.LowSide),
            Gauges.Read(record, entry, FieldNames.HighSide),
        }
            .OfType<AbsoluteReading>()
            .ToArray();
        if (sides.Length == 0)
            return before;
        var nothing = sides.All(side => side.AboveAirPa <= SigmasFromAir * side.GaugeSigmaPa);
        // No leak lifts a vacuum above the air: somebody filled it.
        if (sides.Any(side => side.AboveAirPa > FilledPa))
            return Filled(before);
        if (!nothing)
            return before.HoldsRefrigerant ? AtRest(before) : before;
        return before.Inside switch
        {
            Inside.AsItCame => AtRest(before) with
            {
                Inside = Inside.Air,
                CameOpen = true,
                OpenedSinceVacuum = true,
                Giving = null,
            },
            // All gone again: where it went out, air goes in.
            Inside.Charge => Another(AtRest(before)) with
            {
                Inside = Inside.Air,
                OpenedSinceVacuum = true,
                Giving = null,
            },
            _ => before,
        };
    }

    /// <summary>An engine that runs with the gauges on: nobody pumps or holds; a can may stand open. Pressures and cold
    /// that only refrigerant gives say that it was filled.</summary>
    private static CircuitState Runs(JobRecord record, Entry entry, CircuitState before)
    {
        var pressed = Gauges.Read(record, entry, FieldNames.HighSide)?.AboveAirPa > PressedPa;
        var cooled =
            entry.Kind == EntryKinds.VentReading
            && entry.Fields.Si(FieldNames.AmbientTemperature) - entry.Fields.Si(FieldNames.VentTemperature) > CooledK;
        return pressed || cooled ? Filled(before) : AtRest(before);
    }

    private static CircuitState Filled(CircuitState before) =>
        before.HoldsRefrigerant || before.Inside == Inside.Nitrogen
            ? AtRest(before)
            : Another(AtRest(before)) with
            {
                Inside = Inside.Charge,
                Unwritten = true,
                OpenedSinceVacuum = false,
                Open = [],
            };

    private static CircuitState Recovered(JobRecord record, Entry entry, CircuitState before)
    {
        var after = Another(AtRest(before)) with { Giving = null };
        // A machine that takes out what came in with a hole, or nitrogen let into it, leaves what it was.
        return before.Inside is Inside.AsItCame or Inside.Charge
            ? after with
            {
                Inside = Inside.Recovered,
                ChargedOnto = Foreign.Nothing,
                OntoARest = false,
                Unwritten = false,
            }
            : after;
    }

    private static CircuitState Opened(JobRecord record, Entry entry, CircuitState before)
    {
        var spot = entry.Fields.Text(FieldNames.Spot) ?? "";
        return Another(AtRest(before)) with
        {
            Inside = Inside.Air,
            ChargedOnto = Foreign.Nothing,
            OntoARest = false,
            Unwritten = false,
            OpenedSinceVacuum = true,
            Openings = before.Openings + 1,
            Giving = null,
            Open = before.Open.Any(open => Same(open.Spot, spot))
                ? before.Open
                : before.Open.Add(new(spot, entry.ObservedAt)),
        };
    }

    private static CircuitState Closed(JobRecord record, Entry entry, CircuitState before) =>
        before with
        {
            Open = [.. before.Open.Where(open => !Same(open.Spot, entry.Fields.Text(FieldNames.Spot) ?? ""))],
        };

    /// <summary>A part or seal is not changed on a closed circuit, but for what a valve core tool or a switch's own
    /// valve lets be changed under pressure.</summary>
    private static CircuitState Changed(JobRecord record, Entry entry, CircuitState before)
    {
        var spot = entry.Fields.Text(FieldNames.Spot) ?? "";
        var underPressure =
            before.HoldsRefrigerant
            && (spot.Contains("service valve", StringComparison.OrdinalIgnoreCase) || Same(spot, "pressure switch"));
        var after = Another(AtRest(before));
        return underPressure
            ? after
            : after with
            {
                Inside = Inside.Air,
                ChargedOnto = Foreign.Nothing,
                OntoARest = false,
                Unwritten = false,
                OpenedSinceVacuum = true,
                Giving = null,
                Openings = before.Open.IsEmpty ? before.Openings + 1 : before.Openings,
            };
    }

    private static CircuitState Pump(JobRecord record, Entry entry, CircuitState before) =>
        entry.Fields.Text(FieldNames.Action) == Chosen.Started
            ? Another(before) with
            {
                Inside = Inside.Vacuum,
                ChargedOnto = Foreign.Nothing,
                OntoARest = false,
                Unwritten = false,
                OpenedSinceVacuum = false,
                PumpingSince = entry.ObservedAt,
                Holding = null,
                Giving = null,
                Open = [],
            }
            : before with
            {
                PumpingSince = null,
            };

    private static CircuitState Vacuum(JobRecord record, Entry entry, CircuitState before)
    {
        // Hoses and gauges alone say nothing of the car.
        if (entry.Fields.Text(FieldNames.HeldPart) == Chosen.HosesAlone)
            return before;
        var shut = entry.Fields.Text(FieldNames.PumpValve) == Chosen.Shut;
        var pascals = entry.Fields.Si(FieldNames.AbsolutePressure) ?? Gauges.Read(record, entry, "dial")?.Pascals;
        var after = before;
        if (before.Inside != Inside.Vacuum && pascals < PulledDownPa)
        {
            after = Another(after) with
            {
                Inside = Inside.Vacuum,
                ChargedOnto = Foreign.Nothing,
                OntoARest = false,
                Unwritten = false,
                OpenedSinceVacuum = false,
                Giving = null,
                Open = [],
            };
        }
        return shut
            ? after with
            {
                Holding = (after.Holding?.First ?? entry.ObservedAt, entry.ObservedAt),
            }
            : after with
            {
                Holding = null,
                PumpingSince = after.PumpingSince ?? (after.Inside == Inside.Vacuum ? entry.ObservedAt : null),
            };
    }

    private static CircuitState Nitrogen(JobRecord record, Entry entry, CircuitState before)
    {
        var fresh = before.Inside != Inside.Nitrogen;
        var after = AtRest(before) with { Inside = Inside.Nitrogen, Giving = null, Open = [] };
        return fresh
            ? Another(after) with
            {
                ChargedOnto = Foreign.Nothing,
                OntoARest = false,
                Unwritten = false,
            }
            : after;
    }

    private static CircuitState Container(JobRecord record, Entry entry, CircuitState before)
    {
        var name = entry.Fields.Text(FieldNames.Container) ?? "";
        var without = before.Connected.RemoveAll(other => Same(other, name));
        switch (entry.Fields.Text(FieldNames.Action))
        {
            case Chosen.Connected:
                return before with { Connected = without.Add(name) };
            case Chosen.Opened:
                return Charged(Another(AtRest(before))) with
                {
                    Connected = without.Add(name),
                    Giving = new(
                        name,
                        entry.ObservedAt,
                        entry.Fields.Text(FieldNames.Position) == Chosen.Inverted,
                        entry.Fields.Si(FieldNames.BathTemperature)
                    ),
                };
            case Chosen.Emptied:
                return Shut(Another(Charged(before)), name);
            case Chosen.Closed:
                return Shut(before, name);
            case Chosen.Disconnected:
                return Shut(before, name) with { Connected = without };
            default:
                return before;
        }
    }

    private static CircuitState Shut(CircuitState before, string name) =>
        before.Giving is { } giving && Same(giving.Name, name) ? before with { Giving = null } : before;

    /// <summary>Refrigerant goes in: onto a vacuum it is a charge, onto air or nitrogen a mixture. Nobody fills what
    /// stands open: an opening without its closing was shut by then.</summary>
    private static CircuitState Charged(CircuitState before) =>
        before.Inside switch
        {
            Inside.Air => before with { Inside = Inside.Charge, ChargedOnto = Foreign.Air, Open = [] },
            Inside.Nitrogen => before with { Inside = Inside.Charge, ChargedOnto = Foreign.Nitrogen },
            Inside.Recovered or Inside.Vacuum => before with { Inside = Inside.Charge },
            // On top of a rest that nobody weighed.
            Inside.AsItCame => before with { Inside = Inside.Charge, OntoARest = true },
            _ => before,
        };

    /// <summary>A lighter can gave something, whoever did not write down that it was opened; another can on the scale
    /// does not shut the first.</summary>
    private static CircuitState Scale(JobRecord record, Entry entry, CircuitState before)
    {
        var name = entry.Fields.Text(FieldNames.Container) ?? "";
        var last = record
            .Journal.OfKind(EntryKinds.ScaleReading)
            .LastOrDefault(other =>
                other.ObservedAt < entry.ObservedAt && Same(other.Fields.Text(FieldNames.Container) ?? "", name)
            );
        var gone = last is null ? 0 : last.Fields.Si(FieldNames.Gross) - entry.Fields.Si(FieldNames.Gross);
        return gone > AnotherChargeKg ? Another(AtRest(Charged(before))) : before;
    }

    private static CircuitState State(JobRecord record, Entry entry, CircuitState before) =>
        entry.Fields.Text(FieldNames.State) == Chosen.Closed ? AtRest(before) with { Giving = null } : before;

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
