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
    private readonly Dictionary<string, Holding> holdings = new(StringComparer.OrdinalIgnoreCase);
    private readonly Fluid fluid;
    private readonly double temperatureK;

    private MassBalance(Fluid fluid, double temperatureK)
    {
        this.fluid = fluid;
        this.temperatureK = temperatureK;
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

    /// <summary>Source containers only: what is still in cans and cylinders, kg.</summary>
    public double InContainersKg => holdings.Values.Sum(holding => holding.NetKg) - RecoveredKg;

    public double CameInKg => CameInWithCarKg + CameInContainersKg;
    public double AccountedKg => InContainersKg + HosesKg + SystemKg + RecoveredKg + LostKg;

    public static MassBalance Of(JobRecord record)
    {
        var balance = new MassBalance(FluidOf(record.Car), AirTemperature(record)) { HoseVolumeM3 = record.Kit.HoseVolumeM3 };
        foreach (var container in record.Kits.SelectMany(kit => kit.Containers)) balance.Shelve(container);
        balance.ReceiveCar(record);
        foreach (var entry in record.Journal.Standing) balance.Follow(record, entry);
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

    private void ReceiveCar(JobRecord record)
    {
        var finding = Steps.StandingFinding.Of(record).Estimates.FirstOrDefault(estimate => estimate.Key == "mass-left");
        if (finding is not { Median: { } kilograms, Low: { } low, High: { } high }) return;
        CameInWithCarKg = SystemKg = kilograms;
        SystemVarianceKg2 = Math.Pow((high - low) / (2 * Quantities.Estimate.Z90), 2);
        CameInKnown = true;
    }

    private void Follow(JobRecord record, Entry entry)
    {
        switch (entry.Kind)
        {
            case EntryKinds.ScaleReading: Weigh(record, entry); break;
            case EntryKinds.Recovery: Recover(record, entry); break;
            case EntryKinds.ContainerMoved: Move(entry); break;
            case EntryKinds.Purge: Lose(Math.Min(entry.Fields.Si("estimated-loss") ?? 0, Math.Max(0, SystemKg))); break;
            case EntryKinds.Opened: Empty(); break;
            case EntryKinds.Pump when entry.Fields.Text("action") == "started": Empty(); break;
            default: break;
        }
    }

    private void Weigh(JobRecord record, Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text("container") ?? "", out var holding)) return;
        var gross = entry.Fields.Si("gross")!.Value;
        var sigma = MassSigma(entry, "gross", record.KitAt(entry.ObservedAt));
        if (holding.GrossKg is { } before)
        {
            Draw(holding, before - gross);
            SystemVarianceKg2 += (holding.Weighed ? 1 : 2) * sigma * sigma;
        }
        else if (holding.Container.Tare is { } tare)
        {
            // The first weighing corrects what the label promised; nothing moved.
            var net = Math.Max(0, gross - tare.Kilograms);
            holding.FirstNetKg += net - holding.NetKg;
            holding.NetKg = net;
            holding.NetSigmaKg = sigma;
        }
        holding.Weighed = true;
        holding.GrossKg = gross;
    }

    private void Recover(JobRecord record, Entry entry)
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

    private void Move(Entry entry)
    {
        if (!holdings.TryGetValue(entry.Fields.Text("container") ?? "", out var holding) || holding.Container.IsRecovery) return;
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
                var heel = ChargePlan.HeelKg(fluid, InnerVolumeM3(holding.Container), temperatureK);
                var given = Math.Max(0, holding.NetKg - heel);
                Draw(holding, given);
                if (holding.GrossKg is { } gross) holding.GrossKg = gross - given;
                SystemVarianceKg2 += holding.NetSigmaKg * holding.NetSigmaKg + heel * heel / 4;
                break;
            case "disconnected" when holding.Connected:
                holding.Connected = false;
                var (least, most) = HoseRangeKg(holding);
                var inHose = Math.Min(0.5 * (least + most), Math.Max(0, SystemKg));
                if (holding.DrawnKg > 0)
                {
                    Lose(inHose);
                    SystemVarianceKg2 += Math.Pow((most - least) / Math.Sqrt(12), 2);
                }
                break;
            default:
                break;
        }
    }

    /// <summary>Vapour at the least; with an inverted can up to a hose full of liquid.</summary>
    public (double LeastKg, double MostKg) HoseRangeKg(Holding holding)
    {
        var saturation = fluid.SaturationAtTemperature(temperatureK);
        var vapour = HoseVolumeM3 * fluid.AtTemperaturePressure(temperatureK, Math.Min(3e5, 0.99 * saturation.PressurePa)).DensityKgPerM3;
        return (vapour, HoseVolumeM3 * (holding.HoldsLiquidInHose ? saturation.LiquidDensityKgPerM3 : saturation.VapourDensityKgPerM3));
    }

    /// <summary>One service hose.</summary>
    public double HoseVolumeM3 { get; private init; }

    private void Draw(Holding holding, double kilograms)
    {
        holding.NetKg -= kilograms;
        holding.DrawnKg += kilograms;
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
    }

    /// <summary>Inner volume of a can: its own figure, else so large that the net as sold fills 83 % of it with
    /// liquid at 25 °C; common practice.</summary>
    public double InnerVolumeM3(Container container) => container.InnerVolume?.CubicMetres
        ?? (container.NetAsSold?.Kilograms ?? holdings[container.Name].FirstNetKg) / (0.83 * fluid.SaturationAtTemperature(298.15).LiquidDensityKgPerM3);

    private static double AirTemperature(JobRecord record) =>
        record.Journal.Last(EntryKinds.Weather)?.Fields.Si("ambient-temperature") ?? 298.15;

    /// <summary>What the still connected hose keeps now.</summary>
    private void SettleHoses()
    {
        foreach (var holding in holdings.Values.Where(holding => holding.Connected && holding.DrawnKg > 0))
        {
            var (least, most) = HoseRangeKg(holding);
            var inHose = Math.Min(0.5 * (least + most), Math.Max(0, SystemKg));
            SystemKg -= inHose;
            HosesKg += inHose;
            SystemVarianceKg2 += Math.Pow((most - least) / Math.Sqrt(12), 2);
        }
    }
}
