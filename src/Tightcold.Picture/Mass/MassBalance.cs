using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Charging;
using Tightcold.Properties;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Mass;

/// <summary>Where every gram is. Whatever the entries say, containers + hoses + system + recovered + lost equal
/// what came in: each event only moves mass from one place to another.</summary>
public sealed class MassBalance
{
    /// <summary>A hose that hangs on the container pulls on the scale: one standard deviation, kg; common practice 2 to
    /// 5 g at the most.</summary>
    private const double HosePullKg = 0.0015;

    /// <summary>A label figure may be a few grams off; a weighed net carries the scale's error; kg, one standard
    /// deviation.</summary>
    private const double LabelSigmaKg = 0.008,
        WeighedSigmaKg = 0.004;

    private readonly Dictionary<string, Holding> holdings = new(StringComparer.OrdinalIgnoreCase);
    private readonly ImmutableArray<ShelfContent> shelf;
    private readonly Fluid fluid;
    private readonly JobRecord record;
    private readonly Timeline timeline;

    private MassBalance(JobRecord record, Timeline timeline, ImmutableArray<ShelfContent> shelf)
    {
        this.record = record;
        this.timeline = timeline;
        this.shelf = shelf;
        fluid = FluidOf(record.Car);
        HoseVolumeM3 = record.Kit.HoseVolumeM3;
    }

    /// <summary>In the car when it came, kg: from a standing reading or from what was recovered.</summary>
    public double CameInWithCarKg { get; private set; }

    /// <summary>False while nothing tells what came with the car.</summary>
    public bool CameInKnown { get; private set; }
    public double CameInContainersKg => holdings.Values.Sum(holding => holding.FirstNetKg);
    public double SystemKg { get; private set; }

    /// <summary>Variance of the system's content, kg².</summary>
    public double SystemVarianceKg2 { get; private set; }
    public double HosesKg { get; private set; }
    public double RecoveredKg { get; private set; }
    public double LostKg { get; private set; }

    /// <summary>Left the cans and cylinders since the system was last known empty, hoses included, kg.</summary>
    public double DrawnKg { get; private set; }

    /// <summary>The system was opened or evacuated, so that its content is known from there on.</summary>
    public bool SystemKnown { get; private set; }
    public IReadOnlyDictionary<string, Holding> Holdings => holdings;

    /// <summary>Of what was recovered, given back into the car, kg.</summary>
    public double ReturnedKg { get; private set; }

    /// <summary>Source containers only: what is still in cans and cylinders, kg.</summary>
    public double InContainersKg => holdings.Values.Sum(holding => holding.NetKg) - (RecoveredKg - ReturnedKg);

    public double CameInKg => CameInWithCarKg + CameInContainersKg;
    public double AccountedKg => InContainersKg + HosesKg + SystemKg + (RecoveredKg - ReturnedKg) + LostKg;

    /// <summary>One service hose.</summary>
    public double HoseVolumeM3 { get; }

    /// <summary>The system's content after each entry, as the drawing and earlier readings of the same job see
    /// it.</summary>
    public ImmutableArray<Point> Course { get; private set; } = [];

    /// <param name="At">When.</param>
    /// <param name="Entry">After which entry.</param>
    /// <param name="SystemKg">In the system, hoses left aside.</param>
    /// <param name="VarianceKg2">Of that.</param>
    /// <param name="DrawnKg">Drawn from containers since it was last empty.</param>
    /// <param name="Known">The content is known: it was empty before.</param>
    public readonly record struct Point(
        DateTimeOffset At,
        Guid Entry,
        double SystemKg,
        double VarianceKg2,
        double DrawnKg,
        bool Known
    );

    /// <summary>What was weighed into an empty system by a moment; null when that is not known.</summary>
    public Point? ChargeAt(DateTimeOffset moment)
    {
        Point? last = null;
        foreach (var point in Course)
        {
            if (point.At > moment)
                break;
            last = point;
        }
        return last is { Known: true, DrawnKg: > 0 } ? last : null;
    }

    /// <param name="record">The job.</param>
    /// <param name="timeline">Of the same job.</param>
    /// <param name="came">What the car came with.</param>
    /// <param name="shelf">What other jobs left in containers.</param>
    internal static MassBalance Of(
        JobRecord record,
        Timeline timeline,
        StandingPicture came,
        ImmutableArray<ShelfContent> shelf
    )
    {
        var balance = new MassBalance(record, timeline, shelf);
        foreach (var container in record.Kits.SelectMany(kit => kit.Containers))
            balance.Shelve(container);
        balance.ReceiveCar(came);
        var course = ImmutableArray.CreateBuilder<Point>(timeline.Moments.Length);
        foreach (var moment in timeline.Moments)
        {
            balance.Follow(moment);
            var (hoses, hosesVariance) = balance.InHoses(moment.Entry.ObservedAt);
            course.Add(
                new(
                    moment.Entry.ObservedAt,
                    moment.Entry.Id,
                    balance.SystemKg - hoses,
                    balance.SystemVarianceKg2 + hosesVariance,
                    balance.DrawnKg,
                    balance.SystemKnown
                )
            );
        }
        balance.Course = course.MoveToImmutable();
        var (inHoses, variance) = balance.InHoses(
            timeline.Moments is [.., var last] ? last.Entry.ObservedAt : record.Job.OpenedAt
        );
        balance.SystemKg -= inHoses;
        balance.HosesKg += inHoses;
        balance.SystemVarianceKg2 += variance;
        return balance;
    }

    /// <summary>One container: what it held when it came, what it holds now, and the last scale reading.</summary>
    public sealed class Holding(
        Container container,
        double firstNetKg,
        double netSigmaKg,
        double? grossKg,
        ContentKnown known
    )
    {
        /// <summary>How its content is known.</summary>
        public ContentKnown Known { get; internal set; } = known;

        /// <summary>The last job before this one that used it; null when none did.</summary>
        public int? UsedInJob { get; internal init; }

        public Container Container { get; internal set; } = container;
        public double FirstNetKg { get; internal set; } = firstNetKg;
        public double NetKg { get; internal set; } = firstNetKg;
        public double NetSigmaKg { get; internal set; } = netSigmaKg;
        public double? GrossKg { get; internal set; } = grossKg;
        public bool Weighed { get; internal set; }
        public bool Connected { get; internal set; }
        public bool HoldsLiquidInHose { get; internal set; }
        public double DrawnKg { get; internal set; }

        /// <summary>The hose was evacuated with the system, purged with gas, or not at all; null when nobody
        /// said.</summary>
        public string? PurgeMethod { get; internal set; }

        /// <summary>Of the reading that the draw into the system is counted from, and that reading's share in the
        /// system's variance.</summary>
        internal double StartVarianceKg2 { get; set; }
        internal double CountedVarianceKg2 { get; set; }
        internal double LastVarianceKg2 { get; set; }
    }

    private void Shelve(Container container)
    {
        if (holdings.TryGetValue(container.Name, out var known))
        {
            known.Container = container;
            return;
        }
        if (
            shelf.FirstOrDefault(left =>
                string.Equals(left.Name, container.Name, StringComparison.OrdinalIgnoreCase)
            ) is
            { } before
        )
        {
            // Weighed again it is only corrected: what the last hose pulled on the scale then is not drawn here.
            holdings[container.Name] = new(
                container,
                before.NetKg ?? 0,
                before.SigmaKg,
                null,
                before.NetKg is null ? ContentKnown.UsedBefore : ContentKnown.Weighed
            )
            {
                UsedInJob = before.Job,
            };
            return;
        }
        double? gross = container.GrossNow?.Kilograms;
        var weighed = gross is not null && container.Tare is not null;
        var net =
            weighed ? gross!.Value - container.Tare!.Value.Kilograms
            : container.IsRecovery ? 0
            : container.NetAsSold?.Kilograms ?? 0;
        holdings[container.Name] = new(
            container,
            Math.Max(0, net),
            gross is null ? LabelSigmaKg : WeighedSigmaKg,
            gross,
            weighed || container.IsRecovery ? ContentKnown.Weighed
                : container.NetAsSold is null ? ContentKnown.UsedBefore
                : ContentKnown.AsSold
        );
    }

    private void ReceiveCar(StandingPicture came)
    {
        if (came.Says == StandingSays.OpenToAir)
            CameInKnown = true;
        if (came is not { Says: StandingSays.VapourOnly, Left: { } left })
            return;
        CameInWithCarKg = SystemKg = Math.Max(0, left.MeanKg);
        SystemVarianceKg2 = left.SigmaKg * left.SigmaKg;
        CameInKnown = true;
    }

    private void Follow(Timeline.Moment moment)
    {
        var entry = moment.Entry;
        // Filled by somebody who did not write it down: what is inside is not known any more.
        if (moment.After.Unwritten)
            SystemKnown = false;
        switch (entry.Kind)
        {
            case EntryKinds.ScaleReading:
                Weigh(entry);
                break;
            case EntryKinds.Recovery:
                Recover(entry);
                break;
            case EntryKinds.ContainerMoved:
                Move(entry);
                break;
            case EntryKinds.Purge:
                Purge(entry);
                break;
            default:
                if (
                    moment.After.Inside is Inside.Air or Inside.Nitrogen or Inside.Vacuum
                    && (
                        moment.Before.Inside != moment.After.Inside
                        || entry.Kind is EntryKinds.Opened or EntryKinds.Pump
                    )
                    && !(entry.Kind == EntryKinds.Pump && moment.After.PumpingSince is null)
                )
                    Empty();
                break;
        }
    }

    private void Weigh(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text(FieldNames.Container) ?? "", out var holding))
            return;
        var gross = entry.Fields.Si(FieldNames.Gross)!.Value;
        var sigma = MassSigma(entry, "gross", record.KitAt(entry.ObservedAt));
        var variance = sigma * sigma + (holding.Connected ? HosePullKg * HosePullKg : 0);
        if (holding.GrossKg is { } before)
        {
            Draw(holding, before - gross);
            // Readings between the first and the last cancel: only those two carry an error into the system.
            if (holding.StartVarianceKg2 == 0)
                holding.StartVarianceKg2 = holding.Weighed ? holding.LastVarianceKg2 : sigma * sigma;
            var counts = holding.StartVarianceKg2 + variance;
            SystemVarianceKg2 += counts - holding.CountedVarianceKg2;
            holding.CountedVarianceKg2 = counts;
        }
        else if (holding.Container.Tare is { } tare)
        {
            // The first weighing corrects what the label promised; nothing moved.
            var net = Math.Max(0, gross - tare.Kilograms);
            holding.FirstNetKg += net - holding.NetKg;
            holding.NetKg = net;
            holding.NetSigmaKg = sigma;
            holding.Known = ContentKnown.Weighed;
        }
        holding.LastVarianceKg2 = variance;
        holding.Weighed = true;
        holding.GrossKg = gross;
    }

    private void Recover(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text(FieldNames.Container) ?? "", out var holding))
            return;
        double before = entry.Fields.Si(FieldNames.GrossBefore)!.Value,
            after = entry.Fields.Si(FieldNames.GrossAfter)!.Value;
        if (holding.Container.Tare is { } tare && holding.GrossKg is null)
        {
            holding.FirstNetKg += before - tare.Kilograms - holding.NetKg;
            holding.NetKg = before - tare.Kilograms;
        }
        var taken = after - before;
        // More came out than was thought to be in: then more was in.
        if (taken > SystemKg || !CameInKnown)
        {
            CameInWithCarKg += Math.Max(0, taken - SystemKg);
            SystemKg = Math.Max(SystemKg, taken);
            CameInKnown = true;
        }
        SystemKg -= taken;
        RecoveredKg += taken;
        holding.NetKg += taken;
        holding.GrossKg = after;
        holding.Weighed = true;
        SystemVarianceKg2 += 2 * Math.Pow(MassSigma(entry, FieldNames.GrossAfter, record.KitAt(entry.ObservedAt)), 2);
    }

    /// <summary>What is blown through a hose comes out of the container on it, before or after the first draw; without
    /// one, out of the system.</summary>
    private void Purge(Entry entry)
    {
        var method = entry.Fields.Text(FieldNames.Method);
        foreach (var holding in holdings.Values.Where(holding => holding.Connected))
            holding.PurgeMethod = method;
        var burst = method == "short burst of gas";
        var lost = entry.Fields.Si(FieldNames.EstimatedLoss) ?? (burst ? ChargeConditions.BurstKg : 0);
        if (holdings.Values.LastOrDefault(holding => holding.Connected) is { } source)
        {
            lost = Math.Min(lost, Math.Max(0, source.NetKg));
            source.NetKg -= lost;
            source.DrawnKg += lost;
            // The scale will find it gone, and must not count it into the system.
            source.GrossKg -= lost;
            LostKg += lost;
        }
        else
        {
            lost = Math.Min(lost, Math.Max(0, SystemKg));
            Lose(lost);
        }
        if (burst)
            SystemVarianceKg2 += lost * lost / 4;
    }

    private void Move(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text(FieldNames.Container) ?? "", out var holding))
            return;
        switch (entry.Fields.Text(FieldNames.Action))
        {
            case Chosen.Connected:
                holding.Connected = true;
                break;
            case Chosen.Opened:
                holding.Connected = true;
                holding.HoldsLiquidInHose = entry.Fields.Text(FieldNames.Position) == Chosen.Inverted;
                break;
            case Chosen.Emptied:
                // Without a scale reading afterwards the heel is computed, and stays uncertain.
                var (least, most) = Conditions(holding, entry.ObservedAt).Heel(fluid, InnerVolumeM3(holding.Container));
                var heel = Math.Min(0.5 * (least + most), Math.Max(0, holding.NetKg));
                var given = Math.Max(0, holding.NetKg - heel);
                Draw(holding, given);
                if (holding.GrossKg is { } gross)
                    holding.GrossKg = gross - given;
                SystemVarianceKg2 +=
                    holding.NetSigmaKg * holding.NetSigmaKg + Math.Max(heel * heel / 4, Math.Pow(most - least, 2) / 12);
                holding.Known = ContentKnown.Emptied;
                break;
            case "disconnected" when holding.Connected:
                if (holding.DrawnKg > 0)
                {
                    var (inHose, variance) = InHose(holding, entry.ObservedAt);
                    SystemVarianceKg2 += variance;
                    Lose(inHose);
                }
                holding.Connected = false;
                break;
            default:
                break;
        }
    }

    /// <summary>Temperature, pressure and phase that heel and hose of a container follow from, as read nearest before
    /// the moment.</summary>
    public ChargeConditions Conditions(Holding? holding, DateTimeOffset moment)
    {
        var before = record.Journal.Standing.Where(entry => entry.ObservedAt <= moment).ToArray();
        var airK = record.WeatherAt(moment)?.Fields.Si(FieldNames.AmbientTemperature) ?? 298.15;
        var scale = before.LastOrDefault(entry =>
            entry.Kind == EntryKinds.ScaleReading
            && entry.Fields.Si(FieldNames.ContainerTemperature) is not null
            && (
                holding is null
                || string.Equals(
                    entry.Fields.Text(FieldNames.Container),
                    holding.Container.Name,
                    StringComparison.OrdinalIgnoreCase
                )
            )
        );
        // What stands in the hose has the hose's warmth; a can that was warmed or cooled says so itself.
        var temperatureK = Math.Clamp(scale?.Fields.Si(FieldNames.ContainerTemperature) ?? airK, 233, 325);
        var filled = before
            .FirstOrDefault(entry =>
                entry.Kind == EntryKinds.ContainerMoved && entry.Fields.Text(FieldNames.Action) == Chosen.Opened
            )
            ?.ObservedAt;
        var gauge = before.LastOrDefault(entry =>
            entry.Kind is EntryKinds.RunningReading or EntryKinds.StandingReading
            && timeline.Believes(entry)
            && entry.Fields.Get<Quantities.GaugePressure>(FieldNames.LowSide) is not null
            && entry.ObservedAt >= filled
        );
        double? systemPa = gauge is null
            ? null
            : Math.Max(2e4, Gauges.Read(record, gauge, FieldNames.LowSide)!.Value.Pascals);
        var sigma = Math.Sqrt(
            Math.Pow(record.KitAt(moment).ScalePlusMinusKg / SigmasInPlusMinus, 2) + HosePullKg * HosePullKg
        );
        var method = holding?.PurgeMethod ?? record.Journal.Last(EntryKinds.Purge)?.Fields.Text(FieldNames.Method);
        return new(
            temperatureK,
            systemPa,
            holding?.HoldsLiquidInHose ?? false,
            method == "short burst of gas" ? ChargeConditions.BurstKg : 0,
            sigma
        );
    }

    /// <summary>Vapour at the least; with an inverted can up to a hose full of liquid.</summary>
    public (double LeastKg, double MostKg) HoseRangeKg(Holding holding, DateTimeOffset moment) =>
        Conditions(holding, moment).Hose(fluid, HoseVolumeM3);

    private (double Kilograms, double VarianceKg2) InHose(Holding holding, DateTimeOffset moment)
    {
        var (least, most) = HoseRangeKg(holding, moment);
        return (Math.Min(0.5 * (least + most), Math.Max(0, SystemKg)), Math.Pow(most - least, 2) / 12);
    }

    /// <summary>What the still connected hoses keep.</summary>
    private (double Kilograms, double VarianceKg2) InHoses(DateTimeOffset moment)
    {
        double kilograms = 0,
            variance = 0;
        foreach (var holding in holdings.Values.Where(holding => holding is { Connected: true, DrawnKg: > 0 }))
        {
            var (inHose, spread) = InHose(holding, moment);
            kilograms += inHose;
            variance += spread;
        }
        return (Math.Min(kilograms, Math.Max(0, SystemKg)), variance);
    }

    private void Draw(Holding holding, double kilograms)
    {
        holding.NetKg -= kilograms;
        holding.DrawnKg += kilograms;
        // What comes back from a recovery cylinder is first of all what was recovered here.
        if (holding.Container.IsRecovery)
            ReturnedKg += Math.Clamp(kilograms, -ReturnedKg, RecoveredKg - ReturnedKg);
        SystemKg += kilograms;
        DrawnKg += kilograms;
    }

    private void Lose(double kilograms)
    {
        SystemKg -= kilograms;
        LostKg += kilograms;
    }

    private void Empty()
    {
        Lose(SystemKg);
        SystemVarianceKg2 = 0;
        DrawnKg = 0;
        SystemKnown = true;
        foreach (var holding in holdings.Values)
        {
            holding.CountedVarianceKg2 = 0;
            holding.StartVarianceKg2 = holding.Weighed ? holding.LastVarianceKg2 : 0;
        }
    }

    /// <summary>Inner volume of a can: its own figure, else so large that the net as sold fills 83 % of it with
    /// liquid at 25 °C; common practice.</summary>
    public double InnerVolumeM3(Container container) =>
        container.InnerVolume?.CubicMetres
        // The water that a cylinder holds, at the density of water at 25 °C.
        ?? (container.WaterCapacity is { } water ? water.Kilograms / 997 : (double?)null)
        ?? (container.NetAsSold?.Kilograms ?? holdings[container.Name].FirstNetKg)
            / (Procedures.Cans.CanBody.LiquidShareAsSold * fluid.SaturationAtTemperature(298.15).LiquidDensityKgPerM3);
}
