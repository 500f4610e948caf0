namespace Tightcold.Diagnosis.Tightness;

/// <summary>What a belief was worked out by, for the next one that asks the same.</summary>
/// <param name="Tables">Of its tests.</param>
/// <param name="Sampler">Of all evidence.</param>
/// <param name="Earlier">Of what was known up to the last change.</param>
/// <param name="EarlierSums">What that gave.</param>
/// <param name="Floors">Of the tests that may come next.</param>
internal sealed record TightnessWork(
    TestTables Tables,
    TightnessSampler Sampler,
    TightnessSampler Earlier,
    TightnessSums EarlierSums,
    TestFloors Floors
);
