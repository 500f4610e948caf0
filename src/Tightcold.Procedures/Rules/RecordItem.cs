namespace Tightcold.Procedures.Rules;

/// <summary>Something that a record rule wants written down.</summary>
public enum RecordItem
{
    Date,

    /// <summary>Who did the work.</summary>
    Person,

    /// <summary>Number and end of that person's certificate or licence.</summary>
    Certificate,
    Car,

    /// <summary>Name and address of the car's owner.</summary>
    Owner,
    Refrigerant,
    Recovered,
    Charged,

    /// <summary>What the leak check found.</summary>
    LeakCheck,

    /// <summary>Into which cylinder.</summary>
    Cylinder,

    /// <summary>Who received what was recovered, with address.</summary>
    WentTo,

    /// <summary>What was bought and sold.</summary>
    Bought,
}
