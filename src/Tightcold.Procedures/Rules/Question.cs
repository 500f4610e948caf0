namespace Tightcold.Procedures.Rules;

/// <summary>What is asked of the law of each place.</summary>
public enum Question
{
    /// <summary>Who may buy.</summary>
    Buy,

    /// <summary>Who may keep refrigerant.</summary>
    Own,

    /// <summary>Who may charge, and with what.</summary>
    Charge,

    /// <summary>Who may recover.</summary>
    Recover,

    /// <summary>Letting it out.</summary>
    Vent,

    /// <summary>Adding to a circuit that leaks.</summary>
    TopUp,

    /// <summary>Disposable cans and self-sealing valves.</summary>
    Cans,

    /// <summary>Leak check after a repair, and its form.</summary>
    LeakCheck,

    /// <summary>What to write down, and how long to keep it.</summary>
    Records,

    /// <summary>Kinds of cylinders, how far filled, how often tested.</summary>
    Cylinder,

    /// <summary>Standards of equipment by refrigerant.</summary>
    Equipment,

    /// <summary>The warming potential that this law counts with.</summary>
    Warming,
}
