using System.Collections.Immutable;
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

// Without a fault all must be green: else a test that fails anyway would be taken for one that saw it.
foreach (var look in Looks(faults).Where(look => !book.WasGreen(look, copy.Digest)))
{
    var watch = Stopwatch.StartNew();
    var result = await tests.RunAsync(look, 0).ConfigureAwait(false);
    book.Write(new(0, look.ToString(), copy.Digest, result.By, watch.Elapsed.TotalSeconds));
    Console.WriteLine(
        $"without a fault, {look}: {(result.Green ? "green" : result.By)}, {watch.Elapsed.TotalSeconds:0} s"
    );
    if (result.Green)
        continue;
    Console.Error.WriteLine(result.Said);
    return 1;
}
await Parallel
    .ForEachAsync(
        faults.Where(fault => asked.Again || book.Of(fault, copy.Digest) is null),
        new ParallelOptions { MaxDegreeOfParallelism = asked.AtOnce },
        async (fault, _) =>
        {
            var watch = Stopwatch.StartNew();
            var by = "";
            foreach (var look in fault.Sees)
                if (await tests.RunAsync(look, fault.Id).ConfigureAwait(false) is { Green: false } seen)
                {
                    by = seen.By;
                    break;
                }
            book.Write(new(fault.Id, fault.Digest, copy.Digest, by, watch.Elapsed.TotalSeconds));
            Console.WriteLine(
                $"{fault.Id} {fault.Room}: {(by.Length > 0 ? "caught by " + by : "SURVIVED: " + fault.Says)}, {watch.Elapsed.TotalSeconds:0} s"
            );
        }
    )
    .ConfigureAwait(false);
Told.Table(Console.Out, faults, fault => book.Of(fault, copy.Digest));
return 0;

// A whole program that is green was green in its classes too.
static ImmutableArray<Look> Looks(ImmutableArray<Fault> faults)
{
    var looks = faults.SelectMany(fault => fault.Sees).Distinct().ToArray();
    return
    [
        .. looks.Where(look => look.Classes.Length == 0 || !looks.Any(other => other == look with { Classes = "" })),
    ];
}
