namespace Tightcold.App.Demo;

/// <summary>The clock of the story.</summary>
internal sealed class DemoClock(DateTimeOffset start) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = start;

    public override DateTimeOffset GetUtcNow() => Now.ToUniversalTime();

    public override TimeZoneInfo LocalTimeZone { get; } =
        TimeZoneInfo.CreateCustomTimeZone("story", TimeSpan.FromHours(2), "story", "story");
}
