using System.Diagnostics;
using Tightcold.Injected;

if (Asked.Of(args) is not { } asked)
{
    Console.Error.WriteLine(Asked.Usage);
    return 2;
}
var root = AppContext.BaseDirectory;
while (!File.Exists(Path.Combine(root, "Tightcold.slnx")))
    root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("This is started inside the sources.");
var all = FaultList.All(Path.Combine(root, "tools", "Tightcold.Injected", "Faults"));
var faults = asked.Only.IsEmpty ? all : [.. all.Where(fault => asked.Only.Contains(fault.Id))];
if (asked.List)
{
    Told.List(Console.Out, faults);
    return 0;
}
var home = asked.Copy ?? Path.Combine(root, "artifacts", "injected");
var copy = new FaultyCopy(root, Path.Combine(home, "sources"));
if (copy.Problems(all) is { Count: > 0 } problems)
{
    foreach (var problem in problems)
        Console.Error.WriteLine(problem);
    return 2;
}
if (asked.Check)
    return 0;

var book = new Notebook(Path.Combine(home, "found.tsv"));
copy.Make(all);
if (!await copy.BuildAsync().ConfigureAwait(false))
    return 2;
var tests = new TestProgram(copy, asked.Patience);

await Parallel
    .ForEachAsync(
        faults.Where(fault => asked.Again || book.Of(fault, copy.Digest) is null),
        new ParallelOptions { MaxDegreeOfParallelism = asked.AtOnce },
        async (fault, _) =>
        {
            var watch = Stopwatch.StartNew();
            var by = "";
            foreach (var look in asked.First ? fault.Sees[..1] : fault.Sees)
                if (
                    await tests.RunAsync(look, fault.Id).ConfigureAwait(false) is { Green: false } seen
                    && await IsGreenAsync(look, seen.By).ConfigureAwait(false)
                )
                {
                    by = seen.By;
                    break;
                }
            if (by.Length == 0 && asked.First)
                return;
            book.Write(new(fault.Id, fault.Digest, copy.Digest, by, watch.Elapsed.TotalSeconds));
            Console.WriteLine(
                $"{fault.Id} {fault.Room}: {(by.Length > 0 ? "caught by " + by : "SURVIVED: " + fault.Says)}, {watch.Elapsed.TotalSeconds:0} s"
            );
        }
    )
    .ConfigureAwait(false);
Told.Table(Console.Out, faults, fault => book.Of(fault, copy.Digest));
return 0;

// A test that fails without a fault as well has seen nothing. The one that failed is asked, not all of them: they take as
// long as forty faults, and a test that nothing failed in counts for nothing.
async Task<bool> IsGreenAsync(Look look, string by)
{
    // Of a test with cases the name ends before them. A program that crashed or came to no end has none: it is asked whole.
    var alone = by.Split('(')[0] is var name && name.Contains(' ') ? look : look with { Test = name };
    var test = alone.Test ?? alone.ToString();
    if (book.WasGreen(test, copy.Digest) is { } known)
        return known;
    var watch = Stopwatch.StartNew();
    var result = await tests.RunAsync(alone, 0).ConfigureAwait(false);
    book.Write(new(0, test, copy.Digest, result.By, watch.Elapsed.TotalSeconds));
    if (!result.Green)
        Console.WriteLine($"{test} fails without a fault too: {result.Said}");
    return result.Green;
}
