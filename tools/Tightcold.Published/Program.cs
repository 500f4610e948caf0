using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Published;

var rows = PublishedRow.All();
switch (args)
{
    case ["rows", .. var ids]:
        Console.WriteLine(
            RowsTable.Of(rows.Where(row => ids.Length == 0 || ids.Contains(row.Id)), Effort.Full, _ =>
                Population.Shipped
            )
        );
        return 0;
    case ["warm", .. var ids]:
        var broken = rows.Where(row => !row.IsSound && (ids.Length == 0 || ids.Contains(row.Id)));
        Console.WriteLine(RowsTable.Of(broken, Effort.Full, _ => Population.Shipped, ReadingReason.BroughtInWarm));
        return 0;
    case ["why", var id]:
        Console.WriteLine(WhyText.Of(rows.Single(row => row.Id == id)));
        return 0;
    case ["study", var from, var many]:
        var number = int.Parse(from, System.Globalization.CultureInfo.InvariantCulture);
        Console.WriteLine(InventedCars.Of(number, int.Parse(many, System.Globalization.CultureInfo.InvariantCulture)));
        return 0;
    case ["speed", var from, var many]:
        var firstCar = int.Parse(from, System.Globalization.CultureInfo.InvariantCulture);
        Console.WriteLine(Speed.Of(firstCar, int.Parse(many, System.Globalization.CultureInfo.InvariantCulture)));
        return 0;
    case ["brute", var from, var many]:
        var first = int.Parse(from, System.Globalization.CultureInfo.InvariantCulture);
        Console.WriteLine(
            Tightcold
                .Studies.Faults.AgainstBruteForce.Run(
                    first,
                    int.Parse(many, System.Globalization.CultureInfo.InvariantCulture),
                    CancellationToken.None
                )
                .Text()
        );
        return 0;
    case ["fit", var guess, .. var rest]:
        var rounds = rest is [var count] ? int.Parse(count, System.Globalization.CultureInfo.InvariantCulture) : 6;
        Console.WriteLine(
            PopulationFit
                .Of(Population.Parse(File.ReadAllText(guess)), PopulationFit.Charts(), rounds, Console.WriteLine)
                .Text()
        );
        return 0;
    case ["ship", var guess, var to]:
        var shipped = PopulationFit.Of(Population.Parse(File.ReadAllText(guess)), PopulationFit.Charts(), 8, _ => { });
        File.WriteAllText(to, shipped.File(File.ReadAllLines(guess)));
        return 0;
    case ["left-out", var guess, .. var ids]:
        var charts = PopulationFit.Charts();
        var fit = PopulationFit.Of(Population.Parse(File.ReadAllText(guess)), charts, 6, _ => { });
        var cars = PopulationFit.Draw(charts, fit.Population, 99);
        var without = cars.Select(car => car.Maker)
            .Distinct()
            .ToDictionary(maker => maker, maker => fit.Without(maker, cars).Population);
        Console.WriteLine(
            RowsTable.Of(rows.Where(row => ids.Length == 0 || ids.Contains(row.Id)), Effort.Full, maker =>
                without.GetValueOrDefault(maker, fit.Population)
            )
        );
        return 0;
    default:
        Console.Error.WriteLine(
            """
            rows [id …]               every printed row through the diagnosis, with the population that is shipped
            warm [id …]               the fault rows with the prior of a car brought in warm
            why <id>                  one row with all that speaks for each explanation
            fit <guess> [rounds]      the population from the charts, beginning with a guess (population.csv's form)
            ship <guess> <file>       the same, written as the file that the program carries
            study <from> <cars>       invented cars by number: calibration, and what the check of fit tells
            speed <from> <cars>       processor time of an answer from five ways of running
            brute <from> <cars>       the odds of each effort against a brute force, on invented cars
            left-out <guess> [id …]   every printed row with the population that its maker had no part in
            """
        );
        return 2;
}
