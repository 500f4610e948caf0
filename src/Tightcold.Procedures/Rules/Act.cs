namespace Tightcold.Procedures.Rules;

/// <summary>Something a person does that the law has a word on.</summary>
public enum Act
{
    /// <summary>Getting refrigerant.</summary>
    Buy,

    /// <summary>Having it on the shelf.</summary>
    Own,

    /// <summary>Putting it into a circuit.</summary>
    Charge,

    /// <summary>Charging from a can or cylinder that is not refilled.</summary>
    UseCan,

    /// <summary>Taking it out into a cylinder.</summary>
    Recover,

    /// <summary>Letting it out into the air.</summary>
    Vent,

    /// <summary>Adding to a circuit that leaks.</summary>
    TopUp,

    /// <summary>Looking for leaks after a repair.</summary>
    Check,

    /// <summary>Keeping the record.</summary>
    Write,
}
