using System.Text.Json;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Data;

/// <summary>
/// Reads a fluid file of format <c>tightcold-fluid/1</c>. The files are part of the program, so a fault in one
/// is a fault of the program and throws <see cref="FormatException"/>.
/// </summary>
internal static class FluidFileReader
{
    private const string Format = "tightcold-fluid/1";

    public static FluidDefinition Read(Stream stream)
    {
        using var document = JsonDocument.Parse(stream);
        var root = document.RootElement;
        var format = root.GetProperty("format").GetString();
        if (format != Format)
            throw new FormatException($"Fluid file of format '{format}' where '{Format}' is read.");

        var molarMass = Number(root, "molar_mass_kg_per_mol");
        var gasConstant = Number(root, "gas_constant_j_per_mol_k");
        var critical = root.GetProperty("critical_point");
        var reducing = root.GetProperty("reducing_point");
        var validity = root.GetProperty("validity");
        var reference = root.GetProperty("reference_state");
        var reducingTemperature = Number(reducing, "temperature_k");
        var equation = new HelmholtzEquation(
            gasConstant,
            molarMass,
            reducingTemperature,
            Number(reducing, "density_mol_per_m3"),
            ReadIdeal(
                root.GetProperty("ideal"),
                reducingTemperature,
                Number(reference, "a1_offset"),
                Number(reference, "a2_offset")
            ),
            ReadResidual(root.GetProperty("residual"))
        );
        var ancillaries = root.GetProperty("ancillaries");
        var pseudoPure = root.GetProperty("pseudo_pure").GetBoolean();
        var name = Text(root, "name");
        var transport = new TransportReader(
            root,
            equation,
            molarMass,
            gasConstant,
            Number(critical, "temperature_k"),
            Number(critical, "density_mol_per_m3")
        );
        var viscosity = transport.Viscosity();
        return new FluidDefinition
        {
            Name = name,
            DisplayName = Text(root, "display_name"),
            EquationKey = Text(root, "equation_key"),
            ChemicalName = Text(root, "chemical_name"),
            IsPseudoPure = pseudoPure,
            MolarMassKgPerMol = molarMass,
            GasConstantJPerMolK = gasConstant,
            AcentricFactor = Number(root, "acentric_factor"),
            CriticalTemperatureK = Number(critical, "temperature_k"),
            CriticalPressurePa = Number(critical, "pressure_pa"),
            CriticalDensityKgPerM3 = Number(critical, "density_mol_per_m3") * molarMass,
            // A pseudo-pure fluid has no single saturation line: it is served as one phase, above its reducing
            // temperature.
            MinTemperatureK = pseudoPure ? reducingTemperature : Number(validity, "temperature_min_k"),
            MaxTemperatureK = Number(validity, "temperature_max_k"),
            MaxPressurePa = Number(validity, "pressure_max_pa"),
            TableRange = ReadTableRange(root.GetProperty("table_range")),
            ReferenceState = Text(reference, "convention"),
            Equation = equation,
            SaturationPressure = ReadAncillary(ancillaries, "pressure", 1),
            LiquidDensity = ReadAncillary(ancillaries, "liquid_density", molarMass),
            VapourDensity = ReadAncillary(ancillaries, "vapour_density", molarMass),
            SurfaceTension = transport.SurfaceTension(),
            Viscosity = viscosity,
            Conductivity = transport.Conductivity(viscosity),
            Sources = [.. root.GetProperty("sources").EnumerateObject().Select(ReadSource)],
        };
    }

    internal static double Number(JsonElement element, string name) => element.GetProperty(name).GetDouble();

    internal static double[] Numbers(JsonElement element, string name) =>
        [.. element.GetProperty(name).EnumerateArray().Select(item => item.GetDouble())];

    internal static string Text(JsonElement element, string name) =>
        element.GetProperty(name).GetString() ?? throw new FormatException($"Fluid file: '{name}' is empty.");

    private static TableRange ReadTableRange(JsonElement entry) =>
        new(
            Number(entry, "temperature_min_k"),
            Number(entry, "temperature_max_k"),
            Number(entry, "pressure_min_pa"),
            Number(entry, "pressure_max_pa")
        );

    private static SourceReference ReadSource(JsonProperty property)
    {
        var value = property.Value;
        return new SourceReference(
            property.Name,
            Text(value, "key"),
            Text(value, "authors"),
            value.GetProperty("year").GetInt32(),
            Text(value, "title"),
            Text(value, "journal"),
            value.GetProperty("doi").GetString()
        );
    }

    private static Ancillary? ReadAncillary(JsonElement ancillaries, string name, double factor) =>
        ancillaries.TryGetProperty(name, out var entry)
            ? new Ancillary(
                Text(entry, "form"),
                Number(entry, "reducing_temperature_k"),
                Number(entry, "reducing_value") * factor,
                Numbers(entry, "n"),
                Numbers(entry, "t")
            )
            : null;

    private static IdealPart ReadIdeal(
        JsonElement entries,
        double reducingTemperature,
        double a1Offset,
        double a2Offset
    )
    {
        double a1 = a1Offset,
            a2 = a2Offset,
            log = 0;
        var powers = new List<(double N, double T)>();
        var einstein = new List<(double N, double T, double C, double D)>();
        foreach (var entry in entries.EnumerateArray())
        {
            var kind = Text(entry, "kind");
            switch (kind)
            {
                case "lead":
                    a1 += Number(entry, "a1");
                    a2 += Number(entry, "a2");
                    break;
                case "log_tau":
                    log += Number(entry, "a");
                    break;
                case "power_tau":
                    powers.AddRange(Numbers(entry, "n").Zip(Numbers(entry, "t")));
                    break;
                case "planck_einstein":
                    einstein.AddRange(Numbers(entry, "n").Zip(Numbers(entry, "t"), (n, t) => (n, t, -1.0, 1.0)));
                    break;
                case "planck_einstein_kelvin":
                    einstein.AddRange(
                        Numbers(entry, "n")
                            .Zip(Numbers(entry, "theta_k"), (n, theta) => (n, theta / reducingTemperature, -1.0, 1.0))
                    );
                    break;
                case "planck_einstein_generalized":
                    // n ln(c + d exp(t tau)) = n t tau + n ln(d + c exp(-t tau)), which cannot overflow.
                    foreach (
                        var ((n, t), (c, d)) in Numbers(entry, "n")
                            .Zip(Numbers(entry, "t"))
                            .Zip(Numbers(entry, "c").Zip(Numbers(entry, "d")))
                    )
                    {
                        a2 += n * t;
                        einstein.Add((n, t, c, d));
                    }

                    break;
                case "cp0_polynomial":
                    foreach (var (c, t) in Numbers(entry, "c_per_k_to_t").Zip(Numbers(entry, "t")))
                    {
                        if (t == 0)
                            log += c;
                        else
                            powers.Add((-c * Math.Pow(reducingTemperature, t) / (t * (t + 1)), -t));
                    }

                    break;
                default:
                    throw new FormatException($"Fluid file: ideal part of unknown kind '{kind}'.");
            }
        }

        return new IdealPart(a1, a2, log, powers, einstein);
    }

    private static ResidualPart ReadResidual(JsonElement residual)
    {
        var powers = Rows(residual, "power", 4).Select(row => (row[0], (int)row[1], row[2], (int)row[3])).ToList();
        var gaussian = Rows(residual, "gaussian", 7)
            .Select(row => (row[0], (int)row[1], row[2], row[3], row[4], row[5], row[6]))
            .ToList();
        var nonAnalytic = Rows(residual, "non_analytic", 8)
            .Select(row => new NonAnalyticTerm(row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7]))
            .ToList();
        return new ResidualPart(powers, gaussian, nonAnalytic);
    }

    private static IEnumerable<double[]> Rows(JsonElement residual, string name, int columns)
    {
        if (!residual.TryGetProperty(name, out var block))
            yield break;
        foreach (var row in block.GetProperty("rows").EnumerateArray())
        {
            double[] values = [.. row.EnumerateArray().Select(item => item.GetDouble())];
            if (values.Length != columns)
                throw new FormatException(
                    $"Fluid file: a row of '{name}' has {values.Length} numbers where {columns} are read."
                );
            yield return values;
        }
    }
}
