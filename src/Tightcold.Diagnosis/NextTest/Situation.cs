using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>The car as it stands before the next test.</summary>
internal sealed record Situation(DiagnosisEvidence Evidence)
{
    // Both sides at rest below this: next to nothing is in, and no compressor is run.
    private const double NearlyEmptyPa = 2.5e5;

    public bool NearlyEmpty => Evidence.Standing.Any(reading => reading.PressurePa < NearlyEmptyPa);

    /// <summary>As it ran last.</summary>
    public OperatingPoint Last { get; } =
        Evidence.Points.IsEmpty
            ? new OperatingPoint { AmbientK = Evidence.Standing.IsEmpty ? 298.15 : Evidence.Standing[0].TemperatureK }
            : Evidence.Points[^1];

    /// <summary>The same run with nothing read and no aid.</summary>
    public OperatingPoint Bare =>
        Last with
        {
            Readings = [],
            Glass = GlassSeen.NotLooked,
            Frost = FrostSeen.NotLooked,
            Clutch = ClutchSeen.NotLooked,
            CyclesPerMinute = null,
            Aid = Aid.None,
        };

    /// <summary>The same run with nothing read.</summary>
    public OperatingPoint Same => Bare with { Aid = Last.Aid };

    public bool Lacks(Channel channel) => !Last.Readings.Any(reading => reading.Channel == channel);

    public bool Had(Aid aid) => Evidence.Points.Any(point => point.Aid == aid);
}
