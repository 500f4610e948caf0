using Tightcold.LogStore.Lines;

namespace Tightcold.LogStore.Kept;

/// <summary>A photo, and where its bytes begin in the file.</summary>
internal sealed record KeptPhoto(Guid JobId, PhotoHead Head, long At);
