using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.LeakTests;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Picture.Standing;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Hold;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Leaks;

/// <summary>Everything that the journal knows of leaks, as evidence for one belief: each kind of entry says in one
/// place here what it is evidence of.</summary>
internal static class TightEvidence
{
    /// <summary>A rise on the gauge from which nitrogen was filled up again, Pa.</summary>
    private const double FilledUpPa = 20e3;

    /// <summary>A gauge with a larger step is a dial, Pa.</summary>
    private const double DialStepPa = 3e3;

    /// <summary>Readings of one gauge against each other: its fixed error cancels, this share of its ± stays;
    /// assumed.</summary>
    private const double SameGaugeShare = 0.3;

    /// <summary>Recovery leaves some in the oil, kg; assumed.</summary>
    private const double LeftInOilKg = 0.012;

    /// <summary>Nobody knows since when: two years, give or take a factor of two and a bit; assumed.</summary>
    private const double UnknownYears = 2,
        UnknownSpread = 0.8;

    /// <summary>A charge by weight, and one by feel, kg, one standard deviation; common practice.</summary>
    private const double WeighedSigmaKg = 0.015,
        FeltSigmaKg = 0.06;

    /// <summary>A top-up of which nobody knows the mass, kg; half of a can, common practice.</summary>
    private const double UsualTopUpKg = 0.15;

    private const double UsualYears = 2;

    private const double Month = LeakForecast.Year / 12;

    public static TightnessEvidence Of(
        JobPicture picture,
        ImmutableArray<SpotState> states,
        double chargeKg,
        double sufferingKg,
        TightnessEffort effort
    )
    {
        var record = picture.Record;
        var volume = VolumeOf(record.Car);
        var kit = record.Kit;
        var now = record.Journal.Standing is [.., var last] ? last.ObservedAt : record.Job.OpenedAt;
        var ambientK = Math.Clamp(record.WeatherAt(now)?.Fields.Si(FieldNames.AmbientTemperature) ?? 293.15, 230, 340);
        var setting = LeakView.Setting(record);
        // Until measured it is known to 15 to 25 % only; a figure from a book to 10 %.
        var size = new CircuitSize(
            volume.M3,
            Math.Max(0.03, volume.RelativeSigma > 0.1 ? 0.2 : volume.RelativeSigma),
            2 * kit.HoseVolumeM3,
            OilM3(record.Car),
            ambientK
        );
        var question = new TightnessQuestion(
            Math.Max(0, chargeKg),
            Math.Sqrt(picture.Mass.SystemVarianceKg2) + 0.005,
            sufferingKg,
            (ulong)(uint)record.Job.Seed
        )
        {
            Effort = effort,
            HorizonSeconds = YearsAsked(record) * LeakForecast.Year,
        };
        return new(setting, size, [.. Spots(record, states)], question)
        {
            Searches = [.. Look.Searches(record)],
            Holds = [.. Holds(picture)],
            Nitrogen = [.. Nitrogen(picture)],
            Standings = [.. Standings(picture)],
            Charges = [.. Charges(picture).OrderBy(charge => charge.Time)],
            Openings = [.. Openings(picture)],
            Water = Water(picture),
            Came = picture.Came.Says is StandingSays.VapourOnly or StandingSays.OpenToAir
                ? WhyItCame.ItLost
                : WhyItCame.Unknown,
            Means = Means(picture),
        };
    }

    /// <summary>How long it should still cool: as asked for in this job, else as the kit says, else two
    /// years.</summary>
    private static double YearsAsked(JobRecord record) =>
        record.Journal.Last(EntryKinds.Aim)?.Fields.Number(FieldNames.CoolsFor)
        ?? record.Kit.Fields.Number(FieldNames.CoolsFor)
        ?? UsualYears;

    private static double Clock(JobRecord record, DateTimeOffset moment) => (moment - record.Job.OpenedAt).TotalSeconds;

    private static IEnumerable<LeakSpot> Spots(JobRecord record, ImmutableArray<SpotState> states)
    {
        foreach (var state in states)
        {
            bool Here(Entry entry) =>
                string.Equals(entry.Fields.Text(FieldNames.Spot), state.Spot, StringComparison.OrdinalIgnoreCase);
            var tests = Look.OwnAt(record, state.Spot).Select(look => look.Test);
            var mended = record.Journal.Standing.LastOrDefault(entry =>
                entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged && Here(entry)
            );
            yield return new(
                state.Spot,
                LeakComponents.FromName(state.Spot),
                [.. tests],
                mended is null ? null : Clock(record, mended.ObservedAt),
                state.Leaking
            );
        }
    }

    /// <summary>Every hold of the job: readings with the valve shut, from one opening of the pump's valve to the
    /// next.</summary>
    private static IEnumerable<VacuumHold> Holds(JobPicture picture)
    {
        var record = picture.Record;
        foreach (var alone in new[] { false, true })
        {
            var run = new List<VacuumReadings.Row>();
            foreach (var moment in picture.Timeline.Moments)
            {
                var row =
                    moment.Entry.Kind == EntryKinds.VacuumReading
                        ? VacuumReadings.Interpret(record, moment.Entry, moment.Entry.ObservedAt)
                        : null;
                if (row is { Isolated: true } && row.HosesAlone == alone)
                    run.Add(row);
                // Another reading, a pump that starts, a circuit that is no longer under vacuum: the hold is over.
                else if (row is { Isolated: false } || moment.Before.Epoch != moment.After.Epoch)
                {
                    if (Hold(record, run, alone) is { } ended)
                        yield return ended;
                    run.Clear();
                }
            }
            if (Hold(record, run, alone) is { } last)
                yield return last;
        }
    }

    private static VacuumHold? Hold(JobRecord record, List<VacuumReadings.Row> run, bool alone)
    {
        // A change of gauge inside a hold would be taken for a rise: keep the finer gauge's readings.
        var rows =
            run.Any(row => row.OnDial) && run.Count(row => !row.OnDial) >= 2
                ? run.Where(row => !row.OnDial).ToArray()
                : [.. run];
        if (rows.Length < 2 || rows[^1].Entry.ObservedAt <= rows[0].Entry.ObservedAt)
            return null;
        var start = rows[0].Entry.ObservedAt;
        return new(
            [
                .. rows.Select(row =>
                    Bounded(row.Held with { SecondsSinceStart = (row.Entry.ObservedAt - start).TotalSeconds })
                ),
            ],
            Clock(record, start)
        )
        {
            OnDial = rows.Any(row => row.OnDial),
            HosesAlone = alone,
        };
    }

    private static HoldReading Bounded(HoldReading reading) =>
        reading with
        {
            PressurePa = Math.Clamp(reading.PressurePa, 0, 1.3e5),
            StepPa = Math.Clamp(reading.StepPa, 1e-3, 2e4),
            ScatterPa = Math.Clamp(reading.ScatterPa, 1e-3, 2e4),
            TemperatureK = reading.TemperatureK is { } kelvins ? Math.Clamp(kelvins, 223, 373) : null,
        };

    /// <summary>Every filling with nitrogen that was read twice: a rise on the gauge or work on the circuit begins
    /// another.</summary>
    private static IEnumerable<NitrogenFilling> Fillings(JobPicture picture)
    {
        var run = new List<Entry>();
        foreach (var moment in picture.Timeline.Moments)
        {
            var entry = moment.Entry;
            if (entry.Kind != EntryKinds.PressureTest)
            {
                if (moment.After.Inside != Inside.Nitrogen && run.Count > 0)
                {
                    yield return new([.. run]);
                    run = [];
                }
                continue;
            }
            if (run.Count > 0 && Pressure(picture.Record, entry) > Pressure(picture.Record, run[^1]) + FilledUpPa)
            {
                yield return new([.. run]);
                run = [];
            }
            run.Add(entry);
        }
        if (run.Count > 0)
            yield return new([.. run]);
    }

    internal sealed record NitrogenFilling(ImmutableArray<Entry> Entries);

    private static double Pressure(JobRecord record, Entry entry) =>
        Gauges.Read(record, entry, "pressure")!.Value.Pascals;

    private static IEnumerable<Diagnosis.Tightness.NitrogenTest> Nitrogen(JobPicture picture)
    {
        var record = picture.Record;
        foreach (var entries in Fillings(picture).Select(filling => filling.Entries))
        {
            if (entries.Length < 2 || entries[^1].ObservedAt <= entries[0].ObservedAt)
                continue;
            var kit = record.KitAt(entries[0].ObservedAt);
            var step = kit.Fields.Si(FieldNames.HighGaugeStep) ?? kit.HighGaugePlusMinusPa / 2;
            yield return new(
                [
                    .. entries.Select(entry => new NitrogenReading(
                        (entry.ObservedAt - entries[0].ObservedAt).TotalSeconds,
                        Pressure(record, entry),
                        Math.Clamp(entry.Fields.Si(FieldNames.GasTemperature)!.Value, 223, 373)
                    )),
                ],
                Clock(record, entries[0].ObservedAt)
            )
            {
                SecondsSinceFilled = entries[0].Fields.Si(FieldNames.SinceFilled) ?? 0,
                StepPa = step,
                ScatterPa = Math.Max(1, SameGaugeShare * step),
                OnDial = step > DialStepPa,
            };
        }
    }

    /// <summary>Standing pressures of one stretch in which nothing was filled, taken out or opened.</summary>
    private static IEnumerable<StandingWatch> Standings(JobPicture picture)
    {
        var record = picture.Record;
        var fluid = FluidOf(record.Car);
        var readings = picture.Timeline.Moments.Where(moment =>
            moment is { Doubt: null, After.HoldsRefrigerant: true } && moment.Entry.Kind == EntryKinds.StandingReading
        );
        foreach (var stretch in readings.GroupBy(moment => moment.After.Epoch))
        {
            var points = ImmutableArray.CreateBuilder<StandingPoint>();
            foreach (var entry in stretch.Select(moment => moment.Entry))
            {
                if (RestingReading.Of(record, entry) is not { AtRest: true, Standing: var read })
                    continue;
                points.Add(
                    new(
                        Clock(record, entry.ObservedAt),
                        read.PressurePa,
                        read.TemperatureK,
                        Math.Max(500, SameGaugeShare * read.PressureSigmaPa)
                    )
                );
            }
            if (points.Count >= 2)
                yield return new(fluid, points.ToImmutable());
        }
    }

    /// <summary>What went in and what was found, before this job and in it.</summary>
    private static IEnumerable<ChargeEvent> Charges(JobPicture picture)
    {
        var record = picture.Record;
        var found = Found(picture);
        if (found is not null && record.Car.LabelCharge is { } label)
        {
            foreach (var before in Before(picture, label.Kilograms))
                yield return before;
            yield return found.Value;
        }
        if (
            picture.Mass is { SystemKnown: true, DrawnKg: > 0 } mass
            && picture.Timeline.Now is { Inside: Inside.Charge, OntoARest: false, Unwritten: false }
        )
        {
            var end = mass.Course.Last(point => point.DrawnKg > 0 && point.Known);
            yield return new(
                ChargeEventKind.Inside,
                Clock(record, end.At),
                0,
                mass.SystemKg,
                Math.Sqrt(mass.SystemVarianceKg2) + 0.002
            );
        }
    }

    /// <summary>What the car had in it when it came: weighed when recovered, else from the standing pressure.</summary>
    private static ChargeEvent? Found(JobPicture picture)
    {
        var record = picture.Record;
        if (picture.Recovery is { } recovery)
            return new(
                ChargeEventKind.Recovered,
                Clock(record, recovery.Entries[^1].ObservedAt),
                0,
                recovery.RecoveredKg + LeftInOilKg,
                0.015
            );
        if (picture.Came is not { Entry: { } entry } came)
            return null;
        var time = Clock(record, entry.ObservedAt);
        return came switch
        {
            { Says: StandingSays.OpenToAir } => new(ChargeEventKind.Inside, time, 0, 0, 0.005),
            { Says: StandingSays.VapourOnly, Left: { } left } => new(
                ChargeEventKind.Inside,
                time,
                0,
                left.MeanKg,
                Math.Max(0.005, left.SigmaKg)
            ),
            { Says: StandingSays.LiquidPresent, LeastKg: { } least } => new(
                ChargeEventKind.InsideAtLeast,
                time,
                0,
                least,
                0.01
            ),
            _ => null,
        };
    }

    private static IEnumerable<ChargeEvent> Before(JobPicture picture, double labelKg)
    {
        var record = picture.Record;
        var told = record
            .Journal.OfKind(EntryKinds.EarlierCharge)
            .OrderByDescending(entry => entry.Fields.Number(FieldNames.MonthsAgo))
            .ToArray();
        var written = picture.EarlierPictures.LastOrDefault(job => job.Mass is { SystemKnown: true, DrawnKg: > 0 });
        double? since = null;
        if (written is { Mass: var mass, Record.Journal.Standing: [.., var end] })
        {
            since = Math.Min(-86_400, Clock(record, end.ObservedAt));
            yield return new(
                ChargeEventKind.Inside,
                since.Value,
                0,
                mass.SystemKg,
                Math.Sqrt(mass.SystemVarianceKg2 + 1e-4)
            );
        }
        foreach (var entry in told)
        {
            var (seconds, spread) = LeakLosses.Remembered(entry.Fields.Number(FieldNames.MonthsAgo)!.Value);
            if (-seconds <= since)
                continue;
            yield return entry.Fields.Text(FieldNames.Filled) switch
            {
                Chosen.ToppedUp => new(
                    ChargeEventKind.Added,
                    -seconds,
                    spread,
                    entry.Fields.Si(FieldNames.Mass) ?? UsualTopUpKg,
                    entry.Fields.Si(FieldNames.Mass) is null ? 0.08 : 0.03
                ),
                Chosen.FullByWeight => new(ChargeEventKind.Inside, -seconds, spread, labelKg, WeighedSigmaKg),
                _ => new(ChargeEventKind.Inside, -seconds, spread, labelKg, FeltSigmaKg),
            };
        }
        if (since is null && told.Length == 0)
            yield return new(
                ChargeEventKind.Inside,
                -UnknownYears * LeakForecast.Year,
                UnknownSpread,
                labelKg,
                FeltSigmaKg
            );
        else if (since is null && told.All(entry => entry.Fields.Text(FieldNames.Filled) == Chosen.ToppedUp))
        {
            // To an unknown charge: somewhere below the label, before the first top-up.
            var first = told[0].Fields.Number(FieldNames.MonthsAgo)!.Value * Month;
            yield return new(ChargeEventKind.Inside, -(first + 60), 0.01, 0.55 * labelKg, 0.2 * labelKg);
        }
    }

    /// <summary>Stretches in which it stood open.</summary>
    private static IEnumerable<CircuitOpening> Openings(JobPicture picture)
    {
        var record = picture.Record;
        DateTimeOffset? opened = null;
        var joints = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var moment in picture.Timeline.Moments)
        {
            var works =
                moment.Entry.Kind is EntryKinds.Opened or EntryKinds.PartChanged or EntryKinds.SealChanged
                && moment.After.Inside == Inside.Air;
            if (works)
            {
                opened ??= moment.Entry.ObservedAt;
                joints.Add(moment.Entry.Fields.Text(FieldNames.Spot) ?? "");
            }
            else if (opened is { } since && moment.After.Inside != Inside.Air)
            {
                // Shut before what was read or started then.
                yield return new(
                    Clock(record, moment.Entry.ObservedAt) - 1,
                    Math.Max(1, (moment.Entry.ObservedAt - since).TotalSeconds),
                    Math.Max(1, joints.Count)
                );
                opened = null;
                joints.Clear();
            }
        }
    }

    private static WaterEvidence Water(JobPicture picture)
    {
        var pump = picture.Pump;
        var boilingPa = Properties.WaterVapour.SaturationPressurePa(pump.Setup.PartTemperatureK);
        var deep = pump.Observed.Where(point => point.PressurePa < boilingPa).ToArray();
        var pumped = deep.Length == 0 ? 0 : pump.Observed[^1].Seconds - deep[0].Seconds;
        var drier = picture.Mend.Drier;
        return new(
            drier.OpenFor?.TotalSeconds ?? WaterEvidence.Nothing.OpenSeconds,
            pump.VapourKgPerM3,
            drier.Renewed,
            Math.Max(0, pumped),
            pump.Observed.IsEmpty ? null : pump.Setup.PartTemperatureK
        )
        {
            FoundOpen = picture.Timeline.Moments.Any(moment => moment.After.CameOpen),
            PumpDown =
            [
                .. pump.Observed.Where(point => point.Seconds >= 0).Select(point => (point.Seconds, point.PressurePa)),
            ],
        };
    }

    private static TightnessMeans Means(JobPicture picture)
    {
        var record = picture.Record;
        var kit = record.Kit;
        var owned = kit.Fields.Text(FieldNames.LeakTests) ?? "";
        return new(
            [.. LeakView.Means(record)],
            kit.HasAbsoluteVacuumGauge ? kit.VacuumGaugeStepPa : null,
            OwnedTests.Have(owned, "nitrogen")
                ? kit.Fields.Si(FieldNames.HighGaugeStep) ?? kit.HighGaugePlusMinusPa / 2
                : null,
            1.1e6
        )
        {
            Charged = picture.Timeline.Now.HoldsRefrigerant,
        };
    }
}
