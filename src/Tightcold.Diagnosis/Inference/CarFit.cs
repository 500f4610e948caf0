namespace Tightcold.Diagnosis.Inference;

/// <summary>What the cars tried so far foretell of the next ones.</summary>
/// <param name="Normal">Where to draw them; null where there is no fit and the prior serves.</param>
/// <param name="Starts">Where the loop's solve of them begins; null likewise.</param>
internal readonly record struct CarFit(NormalProposal? Normal, StartMap? Starts);
