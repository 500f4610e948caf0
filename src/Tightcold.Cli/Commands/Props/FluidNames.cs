using Tightcold.Cli.Wiring;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Cli.Commands.Props;

/// <summary>A fluid by the name a person typed, or a refusal that lists those there are.</summary>
internal static class FluidNames
{
    public static Fluid Find(string? name) =>
        FluidCatalog.TryGet(name, out var fluid)
            ? fluid
            : throw new RefusedException(
                "fluid",
                name ?? "",
                $"one of {Phrase.Verbatim(string.Join(", ", FluidCatalog.Names))} is needed"
            );
}
