namespace Tightcold.Procedures.Rules;

/// <summary>For whom somebody works: laws differ by it.</summary>
public enum Who
{
    /// <summary>Not said: the stricter rule is shown, with whom it binds.</summary>
    NotSaid,

    /// <summary>Unpaid, on the own car.</summary>
    Owner,

    /// <summary>For pay or in trade.</summary>
    ForPay,
}
