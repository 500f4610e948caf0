using Tightcold.Jobs.Photos;

namespace Tightcold.LogStore.Lines;

/// <summary>What a line says of a photo. Its bytes stand behind the line as base64, on a line of their own: they are
/// passed over when the log is opened, which would otherwise take as long as the photos are large, and are held to the
/// digest when somebody asks for them.</summary>
/// <param name="Length">Bytes of the picture.</param>
/// <param name="Digest">SHA-256 of the picture (<see cref="Photo.Digest"/>).</param>
internal sealed record PhotoHead(Guid Id, Guid Entry, DateTimeOffset KeptAt, int Length, string Digest)
{
    /// <summary>Letters of the base64 without the end of its line.</summary>
    public long TextLength => ((long)Length + 2) / 3 * 4;

    public static PhotoHead Of(Photo photo) =>
        new(photo.Id, photo.Entry, photo.KeptAt, photo.Body.Length, photo.Digest);
}
