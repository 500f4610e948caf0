using SharpFuzz;
using Tightcold.Fuzz;

// tightcold-fuzz IMPORTER          fed by afl-fuzz
// tightcold-fuzz IMPORTER FILE…    plays files again, to look at a crash
var importer = Importers.Find(args[0]);
if (args.Length > 1)
{
    foreach (var file in args[1..])
        importer(File.ReadAllBytes(file));
    return;
}
Fuzzer.Run(stream =>
{
    using var bytes = new MemoryStream();
    stream.CopyTo(bytes);
    importer(bytes.ToArray());
});
