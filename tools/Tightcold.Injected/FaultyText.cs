using System.Text;

namespace Tightcold.Injected;

/// <summary>Puts all faults of one file into its text, each behind its switch.</summary>
internal static class FaultyText
{
    public static string Of(string text, IEnumerable<Fault> faults, List<string> problems)
    {
        var places = faults
            .SelectMany(fault => fault.Changes.Select(change => (fault, change)))
            .Select(one => (one.fault, one.change, At: Place(text, one.fault, one.change.Find, problems)))
            .Where(place => place.At >= 0)
            .OrderBy(place => place.At)
            .ToArray();
        var result = new StringBuilder(text.Length);
        var done = 0;
        foreach (var (fault, change, at) in places)
        {
            if (at < done)
            {
                problems.Add(
                    $"{fault.Room} {fault.Id}: its text lies over that of the fault before it in {fault.File}."
                );
                continue;
            }
            result.Append(text, done, at - done).Append(change.Both(fault.Id));
            done = at + change.Find.Length;
        }
        return result.Append(text, done, text.Length - done).ToString();
    }

    private static int Place(string text, Fault fault, string find, List<string> problems)
    {
        var at = text.IndexOf(find, StringComparison.Ordinal);
        if (at < 0)
            problems.Add($"{fault.Room} {fault.Id}: “{find}” does not stand in {fault.File}.");
        else if (text.IndexOf(find, at + 1, StringComparison.Ordinal) >= 0)
        {
            problems.Add($"{fault.Room} {fault.Id}: “{find}” stands more than once in {fault.File}.");
            return -1;
        }
        return at;
    }
}
