using System.Buffers.Binary;
using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Photos;

/// <summary>What makes bytes a JPEG that may be kept: judged by what is in them, never by name or by what a sender says
/// of them. The markers are those of ISO/IEC 10918-1, annex B.</summary>
public static class Jpeg
{
    private const string Field = "photo";

    /// <summary>The picture without what a camera writes beside it (place, time, maker, a small copy), or why it is not
    /// taken.</summary>
    public static (ImmutableArray<byte> Body, InputProblem? Problem) Clean(ReadOnlySpan<byte> bytes)
    {
        if (bytes.IsEmpty)
            return ([], InputProblem.Of(Field, "", $"take a photo first, or choose one"));
        if (bytes.Length > Photo.MostBytes)
            return Refused(
                Phrase.Of($"{bytes.Length / 1000} kB"),
                Phrase.Of($"at most {Photo.MostBytes / 1000} kB; the page shrinks a photo by itself where scripts run")
            );
        if (bytes.Length < 4 || bytes[0] != 0xFF || bytes[1] != Marker.Start)
            return Refused(Phrase.Words("this file"), Phrase.Words("a JPEG photo is needed, as phones take them"));
        var kept = ImmutableArray.CreateBuilder<byte>(bytes.Length);
        kept.AddRange(bytes[..2]);
        var at = 2;
        (int Width, int Height)? size = null;
        while (true)
        {
            if (at + 4 > bytes.Length || bytes[at] != 0xFF)
                return Broken();
            var marker = bytes[at + 1];
            // Filling before a marker.
            if (marker == 0xFF)
            {
                at++;
                continue;
            }
            int length = BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
            if (length < 2 || at + 2 + length > bytes.Length || !Marker.HasLength(marker))
                return Broken();
            var segment = bytes.Slice(at, 2 + length);
            if (Marker.IsFrame(marker))
            {
                if (length < 8 || size is not null)
                    return Broken();
                size = (
                    BinaryPrimitives.ReadUInt16BigEndian(segment[7..]),
                    BinaryPrimitives.ReadUInt16BigEndian(segment[5..])
                );
            }
            if (!Marker.IsBeside(marker))
                kept.AddRange(segment);
            at += segment.Length;
            if (marker == Marker.Scan)
                break;
        }
        if (size is not { } pixels || pixels.Width == 0 || pixels.Height == 0)
            return Broken();
        if (Math.Max(pixels.Width, pixels.Height) > Photo.MostPixels)
            return Refused(
                Phrase.Of($"{pixels.Width} by {pixels.Height} pixels"),
                Phrase.Of($"at most {Photo.MostPixels} on the longer side")
            );
        // Behind the end of the picture nothing is kept either.
        var end = bytes[at..].LastIndexOf((ReadOnlySpan<byte>)[0xFF, Marker.End]);
        if (end < 1)
            return Broken();
        kept.AddRange(bytes.Slice(at, end + 2));
        return (kept.ToImmutable(), null);

        static (ImmutableArray<byte>, InputProblem?) Broken() =>
            Refused(
                Phrase.Words("this file"),
                Phrase.Words("a whole JPEG photo is needed; this one breaks off or is none")
            );

        static (ImmutableArray<byte>, InputProblem?) Refused(Phrase value, Phrase allowed) =>
            ([], new InputProblem(Field, value.ToString(), allowed) { Instead = value });
    }

    private static class Marker
    {
        public const byte Start = 0xD8,
            End = 0xD9,
            Scan = 0xDA;

        /// <summary>Start of frame, of any coding.</summary>
        public static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

        /// <summary>Start, end and restart stand alone and have no business before the scan.</summary>
        public static bool HasLength(byte marker) => marker is >= 0xC0 and not (>= 0xD0 and <= 0xD9);

        /// <summary>What applications and cameras write, and comments: all but the two that say how colours are
        /// meant.</summary>
        public static bool IsBeside(byte marker) => marker is (>= 0xE1 and <= 0xEF and not 0xEE) or 0xFE;
    }
}
