using Tightcold.SecondWorld.Leaks;
using Tightcold.SecondWorld.Nitrogen;
using Tightcold.SecondWorld.Search;
using Tightcold.SecondWorld.Vacuum;

namespace Tightcold.SecondWorld.Runs;

/// <summary>Prints a few holds, nitrogen tests and searches, to be looked at.</summary>
public static class LeakLevels
{
    public static void Print()
    {
        for (ulong seed = 1; seed <= 24; seed++)
        {
            var one = VacuumWorld.Draw(seed);
            Console.WriteLine(
                $"circuit {one.CircuitGramPerYear, 8:F0} (seen {one.SeenUnderVacuumGramPerYear:F0}) hose "
                    + $"{one.HoseGramPerYear:F0} water {one.FreeWaterG:F2} oil water {one.OilWaterG:F2} gas "
                    + $"{one.OilRefrigerantG:F1} dial {one.DialOnly} {one.DayC:F0} C pumped {one.PumpedMinutes:F0}: "
                    + string.Join(' ', one.Hold.Select(read => $"{read.Minute:F0}:{read.ShownPa:F0}"))
            );
        }
        // What the trade calls normal: up to 133 Pa (1000 micron) in ten minutes with such oils.
        var rises = Enumerable
            .Range(1, 600)
            .Select(seed => VacuumWorld.Draw((ulong)seed))
            .Where(one =>
                one.CircuitGramPerYear < 40 && one.HoseGramPerYear < 100 && one.FreeWaterG <= 0 && !one.DialOnly
            )
            .Select(one => one.Hold.Last(read => read.Minute <= 10).ShownPa - one.Hold[0].ShownPa)
            .Order()
            .ToList();
        Console.WriteLine(
            $"rise of tight dry cars in ten minutes, Pa: 10 % {rises[rises.Count / 10]:F0}, half "
                + $"{rises[rises.Count / 2]:F0}, 90 % {rises[9 * rises.Count / 10]:F0}"
        );
        for (ulong seed = 1; seed <= 16; seed++)
        {
            var one = NitrogenWorld.Draw(seed);
            Console.WriteLine(
                $"circuit {one.CircuitGramPerYear, 8:F0} hose {one.HoseGramPerYear:F0} "
                    + $"fall {one.LeakFallPa:F0} "
                    + string.Join(
                        ' ',
                        one.Reads.Select(read => $"{read.Minute:F0}:{read.ShownGaugePa / 1e5:F2}/{read.ShownC:F1}")
                    )
            );
        }
        foreach (var look in Enum.GetValues<Look>())
        {
            int found = 0,
                leaks = 0,
                wrong = 0,
                places = 0;
            for (ulong seed = 1; seed <= 400; seed++)
            {
                var car = SearchCar.Draw(seed);
                foreach (var spot in Enum.GetValues<Spot>())
                {
                    var hit = car.Find(spot, look, look == Look.Soap ? 11e5 : Leak.ReferencePa, look == Look.Soap);
                    if (car.Leaks.Contains(spot))
                    {
                        leaks++;
                        if (hit)
                            found++;
                    }
                    else
                    {
                        places++;
                        if (hit)
                            wrong++;
                    }
                }
            }
            Console.WriteLine($"{look}: finds {found} of {leaks}, wrong {wrong} of {places}");
        }
    }
}
