namespace Tightcold.Diagnosis.Faults;

/// <summary>A fault that another occurs together with.</summary>
/// <param name="Order">Place among the pairs; seeds follow it.</param>
/// <param name="Key">Of the fault: rows are made all at once and cannot hold each other.</param>
/// <param name="Share">On the product of the two weights. Two faults at once are a little rarer than chance would have
/// it: a car is brought in when the first one shows.</param>
public sealed record Companion(int Order, string Key, double Share = 0.6)
{
    public Fault Fault => Fault.All.Single(fault => fault.Key == Key);
}
