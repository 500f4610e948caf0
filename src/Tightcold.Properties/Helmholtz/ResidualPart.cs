using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// The residual part of the Helmholtz energy: terms <c>n delta^d tau^t exp(-delta^l)</c> (no exponential for
/// l = 0), <c>n delta^d tau^t exp(-eta (delta-epsilon)^2 - beta (tau-gamma)^2)</c> and non-analytic terms.
/// </summary>
/// <remarks>
/// Work is split in two, because a flash or a saturation point asks one temperature for many densities:
/// <see cref="PrepareTemperature"/> folds everything that depends on tau into one coefficient for each
/// (l, d) pair; after that, an evaluation in density is a short sum. Immutable and thread-safe; the
/// coefficients live in the caller's span.
/// </remarks>
internal sealed class ResidualPart
{
    /// <summary>Largest work span any equation may need; checked when a fluid is read.</summary>
    public const int MaxWork = 384;

    private const int MaxPower = 24;

    // exp(-delta^l) of at most eight groups, then the Gaussians of at most sixteen terms.
    private const int MaxExponentials = 24;

    // A Gaussian whose temperature factor is below this adds nothing that double precision could hold.
    private const double NegligibleCoefficient = 1e-40;

    private readonly double[] _exponents; // distinct tau exponents, padded to whole vectors
    private readonly double[] _termN;
    private readonly double[] _termNt;
    private readonly double[] _termNtt;
    private readonly int[] _termExponent;
    private readonly int[] _slotStart; // first term of each (l, d) slot
    private readonly double[] _slotD;
    private readonly int[] _slotPower;
    private readonly int[] _groupL;
    private readonly int[] _groupStart;
    private readonly int _exponentials; // groups with l > 0, padded to whole vectors
    private readonly int _firstExponential; // 1 where the first group has l = 0, else 0
    private readonly int _highestPower;
    private readonly GaussianTerms _gaussian;
    private readonly NonAnalyticTerms _nonAnalytic;
    private readonly int _slots;
    private readonly int _powersOffset;

    public ResidualPart(
        IReadOnlyList<(double N, int D, double T, int L)> powers,
        IReadOnlyList<(double N, int D, double T, double Eta, double Beta, double Gamma, double Epsilon)> gaussian,
        IReadOnlyList<NonAnalyticTerm> nonAnalytic
    )
    {
        var sorted = powers.OrderBy(term => term.L).ThenBy(term => term.D).ThenBy(term => term.T).ToList();
        var exponents = sorted.Select(term => term.T).Distinct().Order().ToList();
        _termN = [.. sorted.Select(term => term.N)];
        _termNt = [.. sorted.Select(term => term.N * term.T)];
        _termNtt = [.. sorted.Select(term => term.N * term.T * (term.T - 1))];
        _termExponent = [.. sorted.Select(term => exponents.IndexOf(term.T))];
        while (exponents.Count % Vector256<double>.Count != 0)
            exponents.Add(0);
        _exponents = [.. exponents];

        var slots = sorted.Select(term => (term.L, term.D)).Distinct().ToList();
        _slots = slots.Count;
        _slotStart = [.. slots.Select(slot => sorted.FindIndex(term => (term.L, term.D) == slot)), sorted.Count];
        _slotD = [.. slots.Select(slot => (double)slot.D)];
        _slotPower = [.. slots.Select(slot => slot.D)];
        var groups = slots.Select(slot => slot.L).Distinct().ToList();
        _groupL = [.. groups];
        _groupStart = [.. groups.Select(l => slots.FindIndex(slot => slot.L == l)), _slots];
        _firstExponential = groups.Count > 0 && groups[0] == 0 ? 1 : 0;
        _exponentials = (groups.Count - _firstExponential + 3) & ~3;
        _gaussian = new GaussianTerms(gaussian);
        _nonAnalytic = new NonAnalyticTerms(nonAnalytic);
        _highestPower = Math.Max(
            1,
            Math.Max(
                slots.Max(slot => slot.D),
                Math.Max(groups.Max(), gaussian.Select(term => term.D).DefaultIfEmpty(0).Max())
            )
        );
        _powersOffset = (3 * _slots) + _gaussian.WorkLength;
        if (
            _powersOffset + _exponents.Length > MaxWork
            || _highestPower >= MaxPower
            || _exponentials + _gaussian.Padded > MaxExponentials
        )
            throw new ArgumentException(
                "The equation has more terms or higher powers of density than the work arrays hold.",
                nameof(powers)
            );
    }

    /// <summary>True where the equation has terms that are singular at its critical point.</summary>
    public bool HasNonAnalyticTerms => _nonAnalytic.Count > 0;

    /// <summary>Folds the temperature dependence into <paramref name="work"/>, of length <see
    /// cref="MaxWork"/>.</summary>
    public void PrepareTemperature(double tau, double logTau, bool withDerivatives, Span<double> work)
    {
        var powers = work.Slice(_powersOffset, _exponents.Length);
        var vectorLog = Vector256.Create(logTau);
        ref var exponent0 = ref MemoryMarshal.GetArrayDataReference(_exponents);
        ref var power0 = ref MemoryMarshal.GetReference(powers);
        for (nuint i = 0; i < (nuint)_exponents.Length; i += (nuint)Vector256<double>.Count)
            Vector256.Exp(Vector256.LoadUnsafe(ref exponent0, i) * vectorLog).StoreUnsafe(ref power0, i);

        var term = 0;
        if (withDerivatives)
        {
            for (var slot = 0; slot < _slots; slot++)
            {
                double c0 = 0,
                    c1 = 0,
                    c2 = 0;
                var end = _slotStart[slot + 1];
                for (; term < end; term++)
                {
                    var power = powers[_termExponent[term]];
                    c0 += _termN[term] * power;
                    c1 += _termNt[term] * power;
                    c2 += _termNtt[term] * power;
                }

                work[slot] = c0;
                work[_slots + slot] = c1;
                work[(2 * _slots) + slot] = c2;
            }
        }
        else
        {
            for (var slot = 0; slot < _slots; slot++)
            {
                double c0 = 0;
                var end = _slotStart[slot + 1];
                for (; term < end; term++)
                    c0 += _termN[term] * powers[_termExponent[term]];
                work[slot] = c0;
            }
        }

        _gaussian.PrepareTemperature(tau, logTau, work.Slice(3 * _slots, _gaussian.WorkLength));
    }

    /// <summary>Value and density derivatives on the prepared isotherm.</summary>
    [SkipLocalsInit]
    public DensityValues EvaluateDensity(double delta, double tau, ReadOnlySpan<double> work)
    {
        Span<double> powers = stackalloc double[MaxPower];
        Span<double> exponentials = stackalloc double[MaxExponentials];
        FillPowers(delta, powers);
        FillExponentials(delta, powers, exponentials);
        double a = 0,
            d = 0,
            dd = 0;
        for (var group = 0; group < _groupL.Length; group++)
        {
            double s0 = 0,
                s1 = 0,
                s2 = 0;
            var end = _groupStart[group + 1];
            for (var slot = _groupStart[group]; slot < end; slot++)
            {
                var term = work[slot] * powers[_slotPower[slot]];
                var n = _slotD[slot];
                s0 += term;
                s1 += n * term;
                s2 += n * n * term;
            }

            s2 -= s1;
            var l = _groupL[group];
            if (l == 0)
            {
                a += s0;
                d += s1;
                dd += s2;
                continue;
            }

            var deltaL = powers[l];
            var e = exponentials[group - _firstExponential];
            var y = l * deltaL;
            a += e * s0;
            d += e * (s1 - (y * s0));
            dd += e * (s2 - (2 * y * s1) + (y * (y + 1 - l) * s0));
        }

        if (_gaussian.Count > 0)
        {
            var gaussianWork = work.Slice(3 * _slots, _gaussian.WorkLength);
            for (var i = 0; i < _gaussian.Count; i++)
            {
                var c = gaussianWork[i];
                if (Math.Abs(c) < NegligibleCoefficient)
                    continue;
                var term = c * powers[_gaussian.D[i]] * exponentials[_exponentials + i];
                _gaussian.DensityFactors(i, delta, out var m, out var mm);
                a += term;
                d += m * term;
                dd += mm * term;
            }
        }

        if (_nonAnalytic.Count > 0)
        {
            double unusedT = 0,
                unusedTt = 0,
                unusedDt = 0;
            _nonAnalytic.Add(delta, tau, ref a, ref d, ref dd, ref unusedT, ref unusedTt, ref unusedDt);
        }

        return new DensityValues(a, d, dd);
    }

    /// <summary>Value and all first and second derivatives; the isotherm must be prepared with derivatives.</summary>
    [SkipLocalsInit]
    public HelmholtzValues Evaluate(double delta, double tau, ReadOnlySpan<double> work)
    {
        Span<double> powers = stackalloc double[MaxPower];
        Span<double> exponentials = stackalloc double[MaxExponentials];
        FillPowers(delta, powers);
        FillExponentials(delta, powers, exponentials);
        double a = 0,
            d = 0,
            dd = 0,
            t = 0,
            tt = 0,
            dt = 0;
        for (var group = 0; group < _groupL.Length; group++)
        {
            double s0 = 0,
                s1 = 0,
                s2 = 0,
                b0 = 0,
                b1 = 0,
                c0 = 0;
            var end = _groupStart[group + 1];
            for (var slot = _groupStart[group]; slot < end; slot++)
            {
                var power = powers[_slotPower[slot]];
                var n = _slotD[slot];
                var term = work[slot] * power;
                var termT = work[_slots + slot] * power;
                s0 += term;
                s1 += n * term;
                s2 += n * n * term;
                b0 += termT;
                b1 += n * termT;
                c0 += work[(2 * _slots) + slot] * power;
            }

            s2 -= s1;
            var l = _groupL[group];
            var e = 1.0;
            var y = 0.0;
            if (l != 0)
            {
                var deltaL = powers[l];
                e = exponentials[group - _firstExponential];
                y = l * deltaL;
            }

            a += e * s0;
            d += e * (s1 - (y * s0));
            dd += e * (s2 - (2 * y * s1) + (y * (y + 1 - l) * s0));
            t += e * b0;
            dt += e * (b1 - (y * b0));
            tt += e * c0;
        }

        if (_gaussian.Count > 0)
        {
            var gaussianWork = work.Slice(3 * _slots, _gaussian.WorkLength);
            for (var i = 0; i < _gaussian.Count; i++)
            {
                var c = gaussianWork[i];
                if (Math.Abs(c) < NegligibleCoefficient)
                    continue;
                var term = c * powers[_gaussian.D[i]] * exponentials[_exponentials + i];
                _gaussian.DensityFactors(i, delta, out var m, out var mm);
                _gaussian.TemperatureFactors(i, tau, out var w, out var ww);
                a += term;
                d += m * term;
                dd += mm * term;
                t += w * term;
                tt += ww * term;
                dt += m * w * term;
            }
        }

        if (_nonAnalytic.Count > 0)
            _nonAnalytic.Add(delta, tau, ref a, ref d, ref dd, ref t, ref tt, ref dt);
        return new HelmholtzValues(a, d, dd, t, tt, dt);
    }

    private void FillPowers(double delta, Span<double> powers)
    {
        powers[0] = 1;
        var power = delta;
        for (var i = 1; i <= _highestPower; i++)
        {
            powers[i] = power;
            power *= delta;
        }
    }

    /// <summary>exp(-delta^l) of the groups and exp(-eta (delta-epsilon)^2) of the Gaussians, four at a time.</summary>
    private void FillExponentials(double delta, ReadOnlySpan<double> powers, Span<double> exponentials)
    {
        for (var i = 0; i < _exponentials; i++)
        {
            var group = i + _firstExponential;
            exponentials[i] = group < _groupL.Length ? -powers[_groupL[group]] : 0;
        }

        _gaussian.FillExponents(delta, exponentials[_exponentials..]);
        ref var first = ref MemoryMarshal.GetReference(exponentials);
        var count = (nuint)(_exponentials + _gaussian.Padded);
        for (nuint i = 0; i < count; i += (nuint)Vector256<double>.Count)
            Vector256.Exp(Vector256.LoadUnsafe(ref first, i)).StoreUnsafe(ref first, i);
    }
}
