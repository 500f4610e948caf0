using Tightcold.App.Units;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Properties;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

/// <summary>Numbers with their unit, as options of a command.</summary>
internal static class Typing
{
    /// <summary>The value in SI; null when the option was not given.</summary>
    public static double? Read(string option, QuantityKind kind, string? typed, double least, double most)
    {
        if (typed is null)
            return null;
        var field = new FieldSpec(option, option, new FieldType.Quantity(kind, least, most));
        var (value, problem) = UnitParser.Parse(field, typed, Say.Tongue.Culture);
        if (problem is not null)
            throw new RefusedException([problem]);
        var problems = new Schema(option, option, field).Check(FieldBag.Empty.With(option, value!));
        return problems.Count > 0 ? throw new RefusedException(problems) : value!.Value.Si;
    }

    public static double Need(
        string option,
        QuantityKind kind,
        string? typed,
        double least,
        double most,
        Phrase what
    ) => Read(option, kind, typed, least, most) ?? throw new RefusedException(option, "", what);

    public static Fluid Refrigerant(string? typed)
    {
        if (typed is null)
            throw new RefusedException("refrigerant", "", "a refrigerant is needed, such as R-134a or R-1234yf");
        return
            FluidCatalog.TryGet(typed, out var fluid)
            && fluid.HasSaturation
            && fluid.Name is "R134a" or "R1234yf" or "R152a" or "R12"
            ? fluid!
            : throw new RefusedException("refrigerant", typed, "R-134a, R-1234yf, R-152a or R-12 is allowed");
    }
}
