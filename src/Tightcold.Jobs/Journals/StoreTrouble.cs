namespace Tightcold.Jobs.Journals;

/// <summary>What kind of trouble the data gave, for those who act on it; the sentence is for those who read.</summary>
public enum StoreTrouble
{
    /// <summary>None of the others: the sentence says all there is.</summary>
    Other,

    /// <summary>Others write or hold the data. Nothing was written; the same again will do.</summary>
    Busy,

    /// <summary>No room on the disk. Nothing was written.</summary>
    Full,

    /// <summary>The database does not answer. Whether the last thing sent was written is not known.</summary>
    Stopped,

    /// <summary>The data may only be read. Nothing was written.</summary>
    ReadOnly,
}
