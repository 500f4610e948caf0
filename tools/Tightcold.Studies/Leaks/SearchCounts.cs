namespace Tightcold.Studies.Leaks;

/// <summary>Counts of one way of searching.</summary>
internal sealed class SearchCounts
{
    private int cars;
    private int leaking;
    private int complete;
    private double checks;
    private double minutes;
    private double wrong;

    public void Add(InventedCar car, bool[] found, int checksMade, double minutesSpent)
    {
        cars++;
        checks += checksMade;
        minutes += minutesSpent;
        var any = false;
        var all = true;
        for (var j = 0; j < found.Length; j++)
        {
            any |= car.Leaks[j];
            all &= !car.Leaks[j] || found[j];
            if (found[j] && !car.Leaks[j])
                wrong++;
        }
        if (!any)
            return;
        leaking++;
        if (all)
            complete++;
    }

    public SearchResult Result() =>
        new(
            leaking > 0 ? (double)complete / leaking : 1,
            checks / Math.Max(1, cars),
            minutes / Math.Max(1, cars),
            wrong / Math.Max(1, cars)
        );
}
