namespace Tightcold.Diagnosis.Tightness;

/// <summary>What a place is to the car.</summary>
internal enum SpotRole
{
    Listed,

    /// <summary>A place that nobody named.</summary>
    Elsewhere,

    /// <summary>What was undone and closed again.</summary>
    Reassembly,

    /// <summary>Hoses and gauge set: they leak during tests, never on the road.</summary>
    HoseSet,
}
