using Tightcold.Catalogues;
using Tightcold.Tongues;

// gather: brings the files of all languages up to the code. loose: words that no catalogue can know.
var root = AppContext.BaseDirectory;
while (!File.Exists(Path.Combine(root, "Tightcold.slnx")))
    root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("run it within the project");
var gatherer = Rooms.Gather(root);
if (args is ["loose"])
{
    foreach (var end in gatherer.LooseEnds.Distinct())
        Console.WriteLine($"{end.File}:{end.Line}: {end.Code}");
    return 0;
}
if (args is not ["gather"])
{
    Console.WriteLine("gather: brings the catalogues up to the code; loose: lists words that no catalogue can know");
    return 2;
}
var template = Books.Template(gatherer.Found);
foreach (var tongue in AllTongues.All.Where(tongue => tongue != AllTongues.English))
{
    var path = Books.Path(root, tongue.Name);
    using var reader = new StringReader(File.ReadAllText(path));
    var old = Catalogue.Read(reader);
    var merged = Books.Merged(template, old);
    File.WriteAllText(path, merged);
    using var again = new StringReader(merged);
    var now = Catalogue.Read(again);
    var open = now.Messages.Count(message => message.Said.Any(form => form.Length == 0));
    Console.WriteLine($"{tongue.Name}: {template.Length} messages, {open} not translated");
}
return 0;
