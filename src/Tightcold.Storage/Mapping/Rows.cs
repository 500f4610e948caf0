namespace Tightcold.Storage.Mapping;

/// <summary>A car; its label data as the documented JSON of a bag of fields. <see cref="LabelKey"/> is made from them,
/// for order and search, <see cref="Digest"/> so that a changed letter shows (<see cref="RowSum"/>).</summary>
internal sealed class CarRow
{
    public Guid Id { get; set; }
    public string FieldsJson { get; set; } = "";
    public string LabelKey { get; set; } = "";
    public string Digest { get; set; } = "";
}

/// <summary>A version of this workshop's kit.</summary>
internal sealed class KitRow
{
    public Guid Id { get; set; }
    public DateTimeOffset FromTime { get; set; }
    public string BodyJson { get; set; } = "";
    public string Digest { get; set; } = "";
}

/// <summary>A job. <see cref="KitsSince"/> is null where the workshop's own kit holds. A job that came from elsewhere
/// brings its own versions (<see cref="JobKitRow"/>); the workshop's count there only when newer than this
/// moment.</summary>
internal sealed class JobRow
{
    public Guid Id { get; set; }
    public Guid CarId { get; set; }
    public int Number { get; set; }
    public string Complaint { get; set; } = "";
    public DateTimeOffset OpenedAt { get; set; }
    public int Seed { get; set; }
    public DateTimeOffset? KitsSince { get; set; }
    public string Digest { get; set; } = "";
}

/// <summary>A version of the kit that a job from elsewhere was done with.</summary>
internal sealed class JobKitRow
{
    public Guid JobId { get; set; }
    public Guid KitId { get; set; }
    public string BodyJson { get; set; } = "";
    public string Digest { get; set; } = "";
}

/// <summary>An entry: what every entry has in columns, what its kind has as the documented JSON. <see cref="Sequence"/>
/// counts the writing within a job from 1; a number given twice is refused by the database. <see cref="Digest"/> is its
/// link in the chain of the journal (<see cref="Jobs.Journals.JournalChain"/>); empty until an upgrade has made
/// it.</summary>
internal sealed class EntryRow
{
    public Guid Id { get; set; }
    public Guid JobId { get; set; }
    public int Sequence { get; set; }
    public string Kind { get; set; } = "";
    public DateTimeOffset ObservedAt { get; set; }
    public DateTimeOffset WrittenAt { get; set; }
    public string Who { get; set; } = "";
    public Guid? Supersedes { get; set; }
    public string? Reason { get; set; }
    public string FieldsJson { get; set; } = "";
    public string Digest { get; set; } = "";
}

/// <summary>A photo of an entry. The body is text (base64), so that a file, a server and a job file hold the same and
/// no engine's kind of bytes matters.</summary>
internal sealed class PhotoRow
{
    public Guid Id { get; set; }
    public Guid JobId { get; set; }
    public Guid EntryId { get; set; }
    public DateTimeOffset KeptAt { get; set; }
    public string BodyBase64 { get; set; } = "";
    public string Digest { get; set; } = "";
}

/// <summary>What the list of jobs says of a job. Made from car and journal in the transaction that changes them; no
/// truth of its own, and made anew where it is missing.</summary>
internal sealed class JobLineRow
{
    public Guid JobId { get; set; }
    public int Number { get; set; }
    public Guid CarId { get; set; }
    public string CarLabel { get; set; } = "";
    public string Complaint { get; set; } = "";
    public string State { get; set; } = "";
    public string? WaitingFor { get; set; }
    public DateTimeOffset OpenedAt { get; set; }
    public DateTimeOffset? LastEntryAt { get; set; }
    public int Entries { get; set; }
    public string SearchKey { get; set; } = "";
}
