using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Mass;
using Tightcold.Procedures.Cans;
using Tightcold.Procedures.Charging;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.WeighIn;

/// <summary>The weighing-in at this moment: what is in, what is still to go, where to stop, how fast it goes.</summary>
/// <param name="TargetKg">The label charge; null when it is not known.</param>
/// <param name="ToleranceKg">Of the label, or the usual one.</param>
/// <param name="Balance">Where every gram is.</param>
/// <param name="Plan">From here on; null when nothing is missing or the target is not known.</param>
public sealed record LiveWeighIn(double? TargetKg, double ToleranceKg, MassBalance Balance, ChargePlan? Plan)
{
    /// <summary>Common label tolerances are 15 to 30 g; used when the label gives none.</summary>
    public const double UsualToleranceKg = 0.020;

    public double SigmaKg { get; private init; }

    /// <summary>Signed: below 0 it is too much.</summary>
    public double ToGoKg { get; private init; }
    public bool Begun => Balance.DrawnKg > 0;

    /// <summary>The container that gives or gives next, its last reading and where to close it.</summary>
    public string? Container { get; private init; }
    public double? LastGrossKg { get; private init; }
    public DateTimeOffset? LastReadAt { get; private init; }
    public double? StopGrossKg { get; private init; }
    public bool StopsByItself { get; private init; }

    /// <summary>Between the last two readings of that container; null without them.</summary>
    public double? RateKgPerS { get; private init; }
    public double? SecondsLeft =>
        RateKgPerS is { } rate && rate > 1e-6 && LastGrossKg is { } gross && StopGrossKg is { } stop && gross > stop
            ? (gross - stop) / rate
            : null;
    public Overshoot? Overshoot { get; private init; }

    public static LiveWeighIn Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, balance) = (picture.Record, picture.Mass);
        double? target = record.Car.LabelCharge?.Kilograms;
        var tolerance = record.Car.LabelTolerance?.Kilograms ?? UsualToleranceKg;
        var now = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        var sigma = Math.Sqrt(balance.SystemVarianceKg2);
        var begun = balance.DrawnKg > 0;
        var toGo = target is { } full ? full - (balance.SystemKnown || begun ? balance.SystemKg : 0) : 0;
        var connected = balance.Holdings.Values.LastOrDefault(holding => holding.Connected);
        var plan =
            target is not null && toGo > 0
                ? ChargePlan.Make(
                    FluidOf(record.Car),
                    toGo,
                    Stocks(record, balance),
                    balance.HoseVolumeM3,
                    balance.Conditions(connected, now)
                )
                : null;
        var first = plan is { Steps.Length: > 0 } ? plan.Steps[0] : default;
        var container = first.Container ?? connected?.Container.Name;
        var readings = Readings(record, container);
        return new(target, tolerance, balance, plan)
        {
            SigmaKg = sigma,
            ToGoKg = toGo,
            Container = container,
            LastGrossKg =
                container is not null && balance.Holdings.TryGetValue(container, out var holding)
                    ? holding.GrossKg
                    : null,
            LastReadAt = readings.Length > 0 ? readings[^1].ObservedAt : null,
            StopGrossKg = first.StopGrossKg,
            StopsByItself = first.Emptied,
            RateKgPerS = RateOf(record, readings),
            Overshoot =
                target is { } aim && begun && balance.SystemKnown
                    ? Procedures.Charging.Overshoot.Of(balance.SystemKg, sigma, aim, tolerance)
                    : null,
        };
    }

    /// <summary>How fast a container gave between its last two readings; null without them.</summary>
    public static double? Rate(JobRecord record, string name)
    {
        ArgumentNullException.ThrowIfNull(record);
        return RateOf(record, Readings(record, name));
    }

    private static Entry[] Readings(JobRecord record, string? name) =>
        [
            .. record
                .Journal.OfKind(EntryKinds.ScaleReading)
                .Where(entry =>
                    string.Equals(entry.Fields.Text(FieldNames.Container), name, StringComparison.OrdinalIgnoreCase)
                )
                .TakeLast(2),
        ];

    /// <summary>How long the rest of a container will take, by the can's energy balance; null without a container, a
    /// tare or something to give.</summary>
    /// <remarks>Costs some tens of milliseconds: asked for by the weigh-in page and the command, not by every
    /// finding.</remarks>
    /// <param name="record">The job.</param>
    /// <param name="name">Which container.</param>
    /// <param name="bathK">As if it stood in water that warm; null as it stands.</param>
    public CanForecast? Forecast(JobRecord record, string name, double? bathK = null)
    {
        if (
            !Balance.Holdings.TryGetValue(name, out var holding)
            || !(holding.NetKg > 0.01)
            || Plan
                ?.Steps.Where(step => string.Equals(step.Container, name, StringComparison.OrdinalIgnoreCase))
                .ToArray()
                is not [var step, ..]
        )
            return null;
        var fluid = FluidOf(record.Car);
        var moved = record
            .Journal.OfKind(EntryKinds.ContainerMoved)
            .LastOrDefault(entry =>
                string.Equals(entry.Fields.Text(FieldNames.Container), name, StringComparison.OrdinalIgnoreCase)
            );
        var now = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        var airK = Math.Clamp(
            record.WeatherAt(now)?.Fields.Si(FieldNames.AmbientTemperature) ?? 298.15,
            233,
            CanSurroundings.HottestBathK
        );
        var around = (bathK ?? moved?.Fields.Si(FieldNames.BathTemperature)) is { } bath
            ? CanSurroundings.Bath(Math.Clamp(bath, 273.2, CanSurroundings.HottestBathK), 2)
            : CanSurroundings.StillAir(airK);
        var conditions = Balance.Conditions(holding, now);
        var system = conditions.SystemPa is { } lowPa
            ? Receiver.Running(lowPa)
            : Receiver.AtRest(VolumeOf(record.Car).M3, airK, Math.Max(0, Balance.SystemKg));
        var volume = Balance.InnerVolumeM3(holding.Container);
        var body = CanBody.Sold(
            fluid,
            holding.Container.NetAsSold?.Kilograms ?? holding.NetKg,
            holding.Container.Tare?.Kilograms,
            volume
        );
        if (
            holding.NetKg
            >= body.InnerVolumeM3 * fluid.SaturationAtTemperature(CanSurroundings.HottestBathK).LiquidDensityKgPerM3
        )
            return null;
        return CanForecast.Of(
            fluid,
            body,
            holding.NetKg,
            conditions.TemperatureK,
            holding.HoldsLiquidInHose,
            around,
            FlowPath.Usual(record.Kit.HoseBoreM, record.Kit.HoseLengthM),
            system,
            Math.Max(1e-3, step.DrawKg)
        );
    }

    private static double? RateOf(JobRecord record, Entry[] readings)
    {
        if (readings.Length < 2)
            return null;
        // A shut can gives nothing: the time counts from its opening.
        var opened = record
            .Journal.OfKind(EntryKinds.ContainerMoved)
            .LastOrDefault(entry =>
                entry.Fields.Text(FieldNames.Action) == Chosen.Opened
                && entry.ObservedAt < readings[1].ObservedAt
                && string.Equals(
                    entry.Fields.Text(FieldNames.Container),
                    readings[1].Fields.Text(FieldNames.Container),
                    StringComparison.OrdinalIgnoreCase
                )
            )
            ?.ObservedAt;
        var start = opened > readings[0].ObservedAt ? opened.Value : readings[0].ObservedAt;
        var seconds = (readings[1].ObservedAt - start).TotalSeconds;
        var drawn = readings[0].Fields.Si(FieldNames.Gross)!.Value - readings[1].Fields.Si(FieldNames.Gross)!.Value;
        return seconds >= 10 && drawn > 0 ? drawn / seconds : null;
    }

    private static List<Stock> Stocks(JobRecord record, MassBalance balance) =>
        [
            .. balance
                .Holdings.Values
                // A recovery cylinder gives only when a person has connected it: whether that is lawful, and clean, is
                // theirs to say.
                .Where(holding =>
                    (!holding.Container.IsRecovery || holding.Connected)
                    && holding.Container.Refrigerant == record.Car.Refrigerant
                    && holding.NetKg > 0.005
                )
                .OrderByDescending(holding => holding.Connected)
                .Select(holding => new Stock(
                    holding.Container.Name,
                    holding.NetKg,
                    holding.NetSigmaKg,
                    holding.GrossKg,
                    balance.InnerVolumeM3(holding.Container),
                    holding.Container.Kind != Jobs.Kits.Container.Can
                        || holding.Container.Fields.Text(FieldNames.SelfSealing) == Chosen.Yes,
                    // What a connected hose holds is counted already.
                    holding is { Connected: true, DrawnKg: > 0 }
                )),
        ];
}
