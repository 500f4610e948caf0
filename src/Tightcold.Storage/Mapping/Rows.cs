namespace Tightcold.Storage.Mapping;

/// <summary>A car; its label data as the documented JSON of a bag of fields.</summary>
internal sealed class CarRow
{
    public Guid Id { get; set; }
    public string FieldsJson { get; set; } = "";
}

/// <summary>A version of this workshop's kit.</summary>
internal sealed class KitRow
{
    public Guid Id { get; set; }
    public DateTimeOffset FromTime { get; set; }
    public string BodyJson { get; set; } = "";
}

/// <summary>A job. <see cref="KitsSince"/> is null where the workshop's own kit holds. A job that came from elsewhere
/// brings its own versions (<see cref="JobKitRow"/>); the workshop's count there only when newer than this moment.</summary>
internal sealed class JobRow
{
    public Guid Id { get; set; }
    public Guid CarId { get; set; }
    public int Number { get; set; }
    public string Complaint { get; set; } = "";
    public DateTimeOffset OpenedAt { get; set; }
    public int Seed { get; set; }
    public DateTimeOffset? KitsSince { get; set; }
}

/// <summary>A version of the kit that a job from elsewhere was done with.</summary>
internal sealed class JobKitRow
{
    public Guid JobId { get; set; }
    public Guid KitId { get; set; }
    public string BodyJson { get; set; } = "";
}

/// <summary>An entry: what every entry has in columns, what its kind has as the documented JSON.</summary>
internal sealed class EntryRow
{
    public Guid Id { get; set; }
    public Guid JobId { get; set; }
    public string Kind { get; set; } = "";
    public DateTimeOffset ObservedAt { get; set; }
    public DateTimeOffset WrittenAt { get; set; }
    public string Who { get; set; } = "";
    public Guid? Supersedes { get; set; }
    public string? Reason { get; set; }
    public string FieldsJson { get; set; } = "";
}
