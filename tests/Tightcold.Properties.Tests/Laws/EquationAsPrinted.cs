using System.Text.Json;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>The terms of a fluid file written out one by one, as the papers print them.</summary>
internal sealed class EquationAsPrinted
{
    private readonly JsonElement _root;

    public EquationAsPrinted(string name)
    {
        using var stream = typeof(FluidCatalog).Assembly.GetManifestResourceStream($"Fluids/{name}.json")!;
        using var document = JsonDocument.Parse(stream);
        _root = document.RootElement.Clone();
    }

    public Jet Residual(Jet delta, Jet tau)
    {
        Jet sum = 0;
        var residual = _root.GetProperty("residual");
        foreach (var r in Rows(residual, "power"))
        {
            var term = r[0] * Jet.Pow(delta, r[1]) * Jet.Pow(tau, r[2]);
            sum += r[3] == 0 ? term : term * Jet.Exp(-Jet.Pow(delta, r[3]));
        }

        foreach (var r in Rows(residual, "gaussian"))
            sum +=
                r[0]
                * Jet.Pow(delta, r[1])
                * Jet.Pow(tau, r[2])
                * Jet.Exp(-(r[3] * Square(delta - r[6])) - (r[4] * Square(tau - r[5])));

        foreach (var r in Rows(residual, "non_analytic"))
        {
            var u = Square(delta - 1);
            var theta = 1 - tau + (r[4] * Jet.Pow(u, 1 / (2 * r[3])));
            var big = Square(theta) + (r[5] * Jet.Pow(u, r[1]));
            sum += r[0] * Jet.Pow(big, r[2]) * delta * Jet.Exp(-(r[6] * u) - (r[7] * Square(tau - 1)));
        }

        return sum;
    }

    public Jet Ideal(Jet tau)
    {
        var reference = _root.GetProperty("reference_state");
        var reducing = _root.GetProperty("reducing_point").GetProperty("temperature_k").GetDouble();
        Jet sum =
            reference.GetProperty("a1_offset").GetDouble() + (reference.GetProperty("a2_offset").GetDouble() * tau);
        foreach (var entry in _root.GetProperty("ideal").EnumerateArray())
        {
            switch (entry.GetProperty("kind").GetString())
            {
                case "lead":
                    sum += entry.GetProperty("a1").GetDouble() + (entry.GetProperty("a2").GetDouble() * tau);
                    break;
                case "log_tau":
                    sum += entry.GetProperty("a").GetDouble() * Jet.Log(tau);
                    break;
                case "power_tau":
                    foreach (var (n, t) in Pairs(entry, "n", "t"))
                        sum += n * Jet.Pow(tau, t);
                    break;
                case "planck_einstein":
                    foreach (var (n, t) in Pairs(entry, "n", "t"))
                        sum += n * Jet.Log(1 - Jet.Exp(-t * tau));
                    break;
                case "planck_einstein_kelvin":
                    foreach (var (n, theta) in Pairs(entry, "n", "theta_k"))
                        sum += n * Jet.Log(1 - Jet.Exp(-theta / reducing * tau));
                    break;
                case "planck_einstein_generalized":
                    foreach (var ((n, t), (c, d)) in Pairs(entry, "n", "t").Zip(Pairs(entry, "c", "d")))
                        sum += n * Jet.Log(c + (d * Jet.Exp(t * tau)));
                    break;
                case "cp0_polynomial":
                    foreach (var (c, t) in Pairs(entry, "c_per_k_to_t", "t"))
                        sum +=
                            t == 0 ? c * Jet.Log(tau) : -c * Math.Pow(reducing, t) / (t * (t + 1)) * Jet.Pow(tau, -t);
                    break;
                default:
                    throw new InvalidOperationException("A kind of term this oracle does not know.");
            }
        }

        return sum;
    }

    private static Jet Square(Jet a) => a * a;

    private static IEnumerable<double[]> Rows(JsonElement residual, string name) =>
        residual.TryGetProperty(name, out var block)
            ? block
                .GetProperty("rows")
                .EnumerateArray()
                .Select(row => row.EnumerateArray().Select(item => item.GetDouble()).ToArray())
            : [];

    private static IEnumerable<(double, double)> Pairs(JsonElement entry, string first, string second) =>
        entry
            .GetProperty(first)
            .EnumerateArray()
            .Select(item => item.GetDouble())
            .Zip(entry.GetProperty(second).EnumerateArray().Select(item => item.GetDouble()));
}
