using Tightcold.Jobs.Journals;
using Tightcold.SecondWorld.Leaks;
using Tightcold.SecondWorld.Product;
using Tightcold.SecondWorld.Search;

namespace Tightcold.SecondWorld.Runs;

/// <summary>Leak searches by the product's advice against fixed orders, on cars of the second world.</summary>
internal static class SearchRun
{
    private const double Kelvin = 273.15;
    private const double EnoughRemains = 0.08;
    private const double NitrogenPa = 11e5;
    private static readonly double[] Marks = [15, 30, 45, 60, 90];

    private static readonly (Spot Spot, string Name)[] Names =
    [
        (Spot.ShaftSeal, "compressor shaft seal"),
        (Spot.CompressorBody, "compressor body"),
        (Spot.CompressorJoints, "suction line joint at compressor"),
        (Spot.Condenser, "condenser"),
        (Spot.CondenserJoints, "liquid line joint at condenser"),
        (Spot.Drier, "receiver-drier"),
        (Spot.LiquidLine, "liquid line"),
        (Spot.ValveJoints, "expansion valve block"),
        (Spot.Evaporator, "evaporator"),
        (Spot.SuctionHose, "suction hose"),
        (Spot.DischargeHose, "discharge hose"),
        (Spot.LowPort, "low-side service valve"),
        (Spot.HighPort, "high-side service valve"),
        (Spot.SensorOrSwitch, "pressure switch"),
    ];

    /// <summary>
    /// A good fixed order: detector at every place by how often it leaks for the minutes it takes, then soap.
    /// </summary>
    private static readonly Spot[] Order =
    [
        Spot.LowPort,
        Spot.HighPort,
        Spot.Condenser,
        Spot.CondenserJoints,
        Spot.ShaftSeal,
        Spot.ValveJoints,
        Spot.SensorOrSwitch,
        Spot.CompressorJoints,
        Spot.DischargeHose,
        Spot.Drier,
        Spot.SuctionHose,
        Spot.Evaporator,
        Spot.CompressorBody,
        Spot.LiquidLine,
    ];

    private sealed class Search(SearchCar car, int seed)
    {
        private readonly List<(Spot Spot, string Test, string Outcome, double Minute)> done = [];

        public double Minutes { get; private set; }

        public int Checks => done.Count;

        public bool Clear(Spot spot) => done.Any(one => one.Spot == spot && one.Outcome == "clear leak");

        public void Try(Spot spot, string test)
        {
            var look = LookOf(test);
            Minutes += SearchCar.Minutes(spot, look);
            var nitrogen = test == "nitrogen and soap";
            var hit = car.Find(spot, look, nitrogen ? NitrogenPa : Leak.ReferencePa, nitrogen);
            var clear = hit && car.LooksClear(spot);
            done.Add(
                (
                    spot,
                    test,
                    hit
                        ? clear
                            ? "clear leak"
                            : "trace"
                        : "nothing",
                    Minutes
                )
            );
        }

        /// <summary>Every look in its order, to be read.</summary>
        public string Told() =>
            string.Join(
                ", ",
                done.Select(one =>
                    $"{one.Minute:F0} {one.Spot} {one.Test}{(one.Outcome == "nothing" ? "" : " = " + one.Outcome)}"
                )
            );

        /// <summary>The job as it stands after some minutes.</summary>
        public JobRecord Record(double until = double.MaxValue)
        {
            var job = new JobBuilder(
                seed,
                ("refrigerant", "R-134a"),
                ("label-charge", 0.55),
                ("device", "expansion valve"),
                ("compressor", "fixed"),
                ("dye", car.DyeDays > 0.5 ? "yes" : "no"),
                ("struck-spots", "relief device, discharge line joint at condenser")
            );
            job.Kit_(("leak-tests", "UV lamp, electronic detector, soap bubbles, nitrogen"));
            job.At(
                0,
                "weather",
                ("ambient-temperature", 25 + Kelvin),
                (
                    "wind",
                    car.WindCut < 0.3 ? "windy"
                    : car.WindCut < 0.6 ? "breeze"
                    : "still"
                )
            );
            job.At(1, "earlier-charge", ("months-ago", MonthsSince), ("filled", "full, by weight"));
            job.At(
                2,
                "standing-reading",
                ("low-side", Leak.ReferencePa - Leak.AirPa),
                ("high-side", Leak.ReferencePa - Leak.AirPa),
                ("ambient-temperature", 25 + Kelvin),
                ("since-engine-ran", 36000.0)
            );
            foreach (var (spot, test, outcome, minute) in done)
            {
                if (minute > until)
                    break;
                job.At(
                    5 + minute,
                    "leak-check",
                    ("spot", NameOf(spot)),
                    ("test", test),
                    ("outcome", outcome),
                    (
                        "system-pressure",
                        test == "nitrogen and soap" ? NitrogenPa - Leak.AirPa : Leak.ReferencePa - Leak.AirPa
                    ),
                    ("time-spent", 60 * SearchCar.Minutes(spot, LookOf(test))),
                    (
                        "wind",
                        car.WindCut < 0.3 ? "windy"
                        : car.WindCut < 0.6 ? "breeze"
                        : "still"
                    )
                );
            }
            return job.Record();
        }

        /// <summary>It came when a third to all of it was gone.</summary>
        private double MonthsSince => Math.Clamp(Math.Round(12 * 350 / car.TotalGramPerYear), 0, 96);

        /// <summary>
        /// True leaks that the journal after these minutes has shown, and sound places that it names.
        /// </summary>
        public (int Shown, int Wrong) After(double minutes)
        {
            var hits = done.Where(one => one.Minute <= minutes && one.Outcome != "nothing")
                .Select(one => one.Spot)
                .ToHashSet();
            return (car.Leaks.Count(hits.Contains), hits.Count(spot => !car.Leaks.Contains(spot)));
        }
    }

    public static void Run(int count, ulong seed, TextWriter text, bool each)
    {
        var advised = new List<(SearchCar Car, Search Search)>();
        var fixedOrder = new List<(SearchCar Car, Search Search)>();
        var remains = new Reliability();
        var spots = new Reliability();
        for (var i = 0; i < count; i++)
        {
            var car = SearchCar.Draw(seed + (ulong)i);
            var search = new Search(car, i + 1);
            SearchAdvice advice;
            while (true)
            {
                advice = SearchAdvice.Of(search.Record());
                if (
                    advice.AnotherRemains <= EnoughRemains
                    || advice.Next.Count == 0
                    || search.Minutes > 100
                    || search.Checks > 60
                )
                    break;
                var (name, test) = advice.Next[0];
                if (Names.FirstOrDefault(one => one.Name == name) is not { Name: not null } known)
                    break;
                search.Try(known.Spot, test);
            }
            // "Another" is one besides those that a check showed clearly.
            var unfound = car.Leaks.Any(spot => !search.Clear(spot));
            remains.Add(advice.AnotherRemains, unfound);
            foreach (var (spot, name) in Names)
                spots.Add(advice.Leaking.GetValueOrDefault(name), car.Leaks.Contains(spot));
            advised.Add((car, search));
            if (each)
                text.WriteLine(
                    $"{seed + (ulong)i} leaks {string.Join(' ', car.Leaks.Select(spot => $"{spot} {car.Rate(spot):F0}"))}: "
                        + $"{search.Told()} another {advice.AnotherRemains:F2}"
                );

            var other = SearchCar.Draw(seed + (ulong)i);
            var walk = new Search(other, i + 1);
            foreach (var spot in Order)
                walk.Try(spot, spot == Spot.Evaporator ? "drain sniff" : "electronic detector");
            foreach (var spot in Order)
                if (spot != Spot.Evaporator)
                    walk.Try(spot, "nitrogen and soap");
            fixedOrder.Add((other, walk));
        }
        text.WriteLine(
            $"{count} cars, {advised.Sum(one => one.Car.Leaks.Count)} leaks; the advised search ended after "
                + $"{advised.Average(one => one.Search.Minutes):F0} minutes and "
                + $"{advised.Average(one => one.Search.Checks):F0} checks on average."
        );
        text.WriteLine();
        text.WriteLine(
            "| minutes | advised: all leaks shown | wrong places a car "
                + "| fixed order: all leaks shown | wrong places a car |"
        );
        text.WriteLine("|---|---|---|---|---|");
        foreach (var mark in Marks)
        {
            text.WriteLine(
                $"| {mark:F0} | {All(advised, mark):F2} | {Wrong(advised, mark):F2} "
                    + $"| {All(fixedOrder, mark):F2} | {Wrong(fixedOrder, mark):F2} |"
            );
        }
        text.WriteLine();
        text.WriteLine("Another leak remains, said against was: " + remains.Words() + ".");
        text.WriteLine();
        text.WriteLine($"Odds of each place, calibration error {spots.Error:F3}: " + spots.Words() + ".");
        text.WriteLine();
    }

    private static double All(List<(SearchCar Car, Search Search)> of, double minutes) =>
        of.Where(one => one.Car.Leaks.Count > 0)
            .Average(one => one.Search.After(minutes).Shown == one.Car.Leaks.Count ? 1.0 : 0);

    private static double Wrong(List<(SearchCar Car, Search Search)> of, double minutes) =>
        of.Average(one => (double)one.Search.After(minutes).Wrong);

    private static string NameOf(Spot spot) => Names.First(one => one.Spot == spot).Name;

    private static Look LookOf(string test) =>
        test switch
        {
            "UV lamp" or "dye at the drain" => Look.Dye,
            "soap bubbles" or "nitrogen and soap" => Look.Soap,
            "oil trace" => Look.Eye,
            "cover and wait" => Look.Cover,
            "drain sniff" => Look.Drain,
            _ => Look.Detector,
        };
}
