using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Procedures.Charging;
using Tightcold.Properties;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings;

/// <summary>Where every gram is. Whatever the entries say, containers + hoses + system + recovered + lost equal
/// what came in: each event only moves mass from one place to another.</summary>
public sealed class MassBalance
{
    /// <summary>A hose that hangs on the container pulls on the scale: one standard deviation, kg; common practice 2 to 5 g at the most.</summary>
    private const double HosePullKg = 0.0015;

    private readonly Dictionary<string, Holding> holdings = new(StringComparer.OrdinalIgnoreCase);
    private readonly Fluid fluid;
    private readonly JobRecord record;

    private MassBalance(JobRecord record)
    {
        this.record = record;
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

    public static MassBalance Of(JobRecord record)
    {
        var balance = new MassBalance(record);
        foreach (var container in record.Kits.SelectMany(kit => kit.Containers)) balance.Shelve(container);
        balance.ReceiveCar();
        foreach (var entry in record.Journal.Standing) balance.Follow(entry);
        balance.SettleHoses();
        return balance;
    }

    /// <summary>One container: what it held when it came, what it holds now, and the last scale reading.</summary>
    public sealed class Holding(Container container, double firstNetKg, double netSigmaKg, double? grossKg)
    {
        public Container Container { get; internal set; } = container;
        public double FirstNetKg { get; internal set; } = firstNetKg;
        public double NetKg { get; internal set; } = firstNetKg;
        public double NetSigmaKg { get; internal set; } = netSigmaKg;
        public double? GrossKg { get; internal set; } = grossKg;
        public bool Weighed { get; internal set; }
        public bool Connected { get; internal set; }
        public bool HoldsLiquidInHose { get; internal set; }
        public double DrawnKg { get; internal set; }

        /// <summary>The hose was evacuated with the system, purged with gas, or not at all; null when nobody said.</summary>
        public string? PurgeMethod { get; internal set; }

        /// <summary>Of the reading that the draw into the system is counted from, and that reading's share in the system's variance.</summary>
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
        double? gross = container.GrossNow?.Kilograms;
        var net = gross is { } g && container.Tare is { } tare ? g - tare.Kilograms
            : container.IsRecovery ? 0 : container.NetAsSold?.Kilograms ?? 0;
        // A label figure may be a few grams off; a weighed net carries the scale's error.
        holdings[container.Name] = new(container, Math.Max(0, net), gross is null ? 0.008 : 0.004, gross);
    }

    private void ReceiveCar()
    {
        var finding = Steps.StandingFinding.Of(record).Estimates.FirstOrDefault(estimate => estimate.Key == "mass-left");
        if (finding is not { Median: { } kilograms, Low: { } low, High: { } high }) return;
        CameInWithCarKg = SystemKg = kilograms;
        SystemVarianceKg2 = Math.Pow((high - low) / (2 * Quantities.Estimate.Z90), 2);
        CameInKnown = true;
    }

    private void Follow(Entry entry)
    {
        switch (entry.Kind)
        {
            case EntryKinds.ScaleReading: Weigh(entry); break;
            case EntryKinds.Recovery: Recover(entry); break;
            case EntryKinds.ContainerMoved: Move(entry); break;
            case EntryKinds.Purge: Purge(entry); break;
            case EntryKinds.Opened: Empty(); break;
            case EntryKinds.Pump when entry.Fields.Text("action") == "started": Empty(); break;
            default: break;
        }
    }

    private void Weigh(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text("container") ?? "", out var holding)) return;
        var gross = entry.Fields.Si("gross")!.Value;
        var sigma = MassSigma(entry, "gross", record.KitAt(entry.ObservedAt));
        var variance = sigma * sigma + (holding.Connected ? HosePullKg * HosePullKg : 0);
        if (holding.GrossKg is { } before)
        {
            Draw(holding, before - gross);
            // Readings between the first and the last cancel: only those two carry an error into the system.
            if (holding.StartVarianceKg2 == 0) holding.StartVarianceKg2 = holding.Weighed ? holding.LastVarianceKg2 : sigma * sigma;
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
        }
        holding.LastVarianceKg2 = variance;
        holding.Weighed = true;
        holding.GrossKg = gross;
    }

    private void Recover(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text("container") ?? "", out var holding)) return;
        double before = entry.Fields.Si("gross-before")!.Value, after = entry.Fields.Si("gross-after")!.Value;
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
        SystemVarianceKg2 += 2 * Math.Pow(MassSigma(entry, "gross-after", record.KitAt(entry.ObservedAt)), 2);
    }

    private void Purge(Entry entry)
    {
        var method = entry.Fields.Text("method");
        foreach (var holding in holdings.Values.Where(holding => holding.Connected)) holding.PurgeMethod = method;
        var burst = method == "short burst of gas" ? ChargeConditions.BurstKg : 0;
        var lost = Math.Min(entry.Fields.Si("estimated-loss") ?? burst, Math.Max(0, SystemKg));
        Lose(lost);
        if (method == "short burst of gas") SystemVarianceKg2 += lost * lost / 4;
    }

    private void Move(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text("container") ?? "", out var holding)) return;
        switch (entry.Fields.Text("action"))
        {
            case "connected":
                holding.Connected = true;
                break;
            case "opened":
                holding.Connected = true;
                holding.HoldsLiquidInHose = entry.Fields.Text("position") == "inverted (liquid)";
                break;
            case "emptied":
                // Without a scale reading afterwards the heel is computed, and stays uncertain.
                var (least, most) = Conditions(holding, entry.ObservedAt).Heel(fluid, InnerVolumeM3(holding.Container));
                var heel = Math.Min(0.5 * (least + most), Math.Max(0, holding.NetKg));
                var given = Math.Max(0, holding.NetKg - heel);
                Draw(holding, given);
                if (holding.GrossKg is { } gross) holding.GrossKg = gross - given;
                SystemVarianceKg2 += holding.NetSigmaKg * holding.NetSigmaKg + Math.Max(heel * heel / 4, Math.Pow(most - least, 2) / 12);
                break;
            case "disconnected" when holding.Connected:
                if (holding.DrawnKg > 0) Lose(TakeHose(holding, entry.ObservedAt));
                holding.Connected = false;
                break;
            default:
                break;
        }
    }

    /// <summary>Temperature, pressure and phase that heel and hose of a container follow from, as read nearest before the moment.</summary>
    public ChargeConditions Conditions(Holding? holding, DateTimeOffset moment)
    {
        var before = record.Journal.Standing.Where(entry => entry.ObservedAt <= moment).ToArray();
        var airK = record.WeatherAt(moment)?.Fields.Si("ambient-temperature") ?? 298.15;
        var scale = before.LastOrDefault(entry => entry.Kind == EntryKinds.ScaleReading && entry.Fields.Si("container-temperature") is not null
            && (holding is null || string.Equals(entry.Fields.Text("container"), holding.Container.Name, StringComparison.OrdinalIgnoreCase)));
        // What stands in the hose has the hose's warmth; a can that was warmed or cooled says so itself.
        var temperatureK = Math.Clamp(scale?.Fields.Si("container-temperature") ?? airK, 233, 325);
        var filled = before.FirstOrDefault(entry => entry.Kind == EntryKinds.ContainerMoved && entry.Fields.Text("action") == "opened")?.ObservedAt;
        var gauge = before.LastOrDefault(entry => entry.Kind is EntryKinds.RunningReading or EntryKinds.StandingReading && entry.Fields.Si("low-side") is not null && entry.ObservedAt >= filled);
        double? systemPa = gauge is null ? null
            : Math.Max(2e4, gauge.Fields.Si("low-side")!.Value - record.KitAt(gauge.ObservedAt).LowGaugeZeroPa + AirPressure.At(record, gauge.ObservedAt).Pascals);
        var sigma = Math.Sqrt(Math.Pow(record.KitAt(moment).ScalePlusMinusKg / SigmasInPlusMinus, 2) + HosePullKg * HosePullKg);
        var method = holding?.PurgeMethod ?? record.Journal.Last(EntryKinds.Purge)?.Fields.Text("method");
        return new(temperatureK, systemPa, holding?.HoldsLiquidInHose ?? false, method == "short burst of gas" ? ChargeConditions.BurstKg : 0, sigma);
    }

    /// <summary>Vapour at the least; with an inverted can up to a hose full of liquid.</summary>
    public (double LeastKg, double MostKg) HoseRangeKg(Holding holding, DateTimeOffset moment) =>
        Conditions(holding, moment).Hose(fluid, HoseVolumeM3);

    private double TakeHose(Holding holding, DateTimeOffset moment)
    {
        var (least, most) = HoseRangeKg(holding, moment);
        SystemVarianceKg2 += Math.Pow(most - least, 2) / 12;
        return Math.Min(0.5 * (least + most), Math.Max(0, SystemKg));
    }

    private void Draw(Holding holding, double kilograms)
    {
        holding.NetKg -= kilograms;
        holding.DrawnKg += kilograms;
        // What comes back from a recovery cylinder is first of all what was recovered here.
        if (holding.Container.IsRecovery) ReturnedKg += Math.Clamp(kilograms, -ReturnedKg, RecoveredKg - ReturnedKg);
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
    public double InnerVolumeM3(Container container) => container.InnerVolume?.CubicMetres
        // The water that a cylinder holds, at the density of water at 25 °C.
        ?? (container.WaterCapacity is { } water ? water.Kilograms / 997 : (double?)null)
        ?? (container.NetAsSold?.Kilograms ?? holdings[container.Name].FirstNetKg) / (Procedures.Cans.CanBody.LiquidShareAsSold * fluid.SaturationAtTemperature(298.15).LiquidDensityKgPerM3);

    /// <summary>What the still connected hose keeps now.</summary>
    private void SettleHoses()
    {
        var now = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        foreach (var holding in holdings.Values.Where(holding => holding.Connected && holding.DrawnKg > 0))
        {
            var inHose = TakeHose(holding, now);
            SystemKg -= inHose;
            HosesKg += inHose;
        }
    }
}
