namespace Tightcold.Properties.Tables;

/// <summary>The last nodes along an isobar, to guess the next by the parabola through them.</summary>
internal struct NodeTrack
{
    private int _count;
    private (double Z, double T, double Delta) _a;
    private (double Z, double T, double Delta) _b;
    private (double Z, double T, double Delta) _c;

    public void Add(double z, double temperature, double delta)
    {
        (_c, _b, _a) = (_b, _a, (z, temperature, delta));
        _count++;
    }

    /// <summary>Temperature and reduced density expected at z.</summary>
    public readonly (double Temperature, double Delta) Predict(double z)
    {
        if (_count < 2)
            return (_a.T, _a.Delta);
        if (_count == 2)
        {
            var w = (z - _b.Z) / (_a.Z - _b.Z);
            return (_b.T + (w * (_a.T - _b.T)), Math.Max(_b.Delta + (w * (_a.Delta - _b.Delta)), 0.5 * _a.Delta));
        }

        var wa = (z - _b.Z) * (z - _c.Z) / ((_a.Z - _b.Z) * (_a.Z - _c.Z));
        var wb = (z - _a.Z) * (z - _c.Z) / ((_b.Z - _a.Z) * (_b.Z - _c.Z));
        var wc = (z - _a.Z) * (z - _b.Z) / ((_c.Z - _a.Z) * (_c.Z - _b.Z));
        return (
            (wa * _a.T) + (wb * _b.T) + (wc * _c.T),
            Math.Max((wa * _a.Delta) + (wb * _b.Delta) + (wc * _c.Delta), 0.5 * _a.Delta)
        );
    }
}
