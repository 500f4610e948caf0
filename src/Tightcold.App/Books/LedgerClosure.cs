using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.App.Books;

/// <summary>Whether a job's refrigerant adds up: what came in is in containers, hoses and system, recovered, or
/// lost.</summary>
public static class LedgerClosure
{
    /// <summary>Room for the rounding of sums, relative.</summary>
    private const double Tolerance = 1e-9;

    /// <summary>One sentence where it does not add up; none where it does.</summary>
    public static IEnumerable<string> Of(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var balance = new JobPicture(record).Mass;
        var gap = balance.CameInKg - balance.AccountedKg;
        // A gap that is no number at all is a gap too.
        if (!(Math.Abs(gap) <= Tolerance * Math.Max(1, Math.Abs(balance.CameInKg))))
            yield return Say.It(
                $"Job {record.Job.Number}: the ledger does not close, {Grams(gap, "0.###")} g of "
                    + $"{Grams(balance.CameInKg, "0.#")} g are not accounted for."
            );
    }

    private static string Grams(double kilograms, string digits) =>
        (kilograms * 1000).ToString(digits, Say.Tongue.Culture);
}
