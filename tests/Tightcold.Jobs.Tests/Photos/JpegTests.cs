using System.Text;
using Tightcold.Jobs.Photos;

namespace Tightcold.Jobs.Tests.Photos;

public sealed class JpegTests
{
    /// <summary>Segments as ISO/IEC 10918-1 lays them out; the scan's bytes stand for any.</summary>
    private static byte[] Made(int width, int height, string beside = "where it was taken", int scan = 200) =>
        [
            0xFF,
            0xD8,
            .. Segment(0xE0, [.. "JFIF\0"u8, 1, 1, 0, 0, 1, 0, 1, 0, 0]),
            .. Segment(0xE1, Encoding.ASCII.GetBytes("Exif\0\0" + beside)),
            .. Segment(0xFE, Encoding.ASCII.GetBytes("maker")),
            .. Segment(0xDB, new byte[65]),
            .. Segment(
                0xC0,
                [
                    8,
                    (byte)(height >> 8),
                    (byte)height,
                    (byte)(width >> 8),
                    (byte)width,
                    3,
                    1,
                    0x22,
                    0,
                    2,
                    0x11,
                    0,
                    3,
                    0x11,
                    0,
                ]
            ),
            .. Segment(0xDA, [3, 1, 0, 2, 0, 3, 0, 0, 63, 0]),
            .. Enumerable.Repeat((byte)0x55, scan),
            0xFF,
            0xD9,
        ];

    private static byte[] Segment(byte marker, ReadOnlySpan<byte> body) =>
        [0xFF, marker, (byte)((body.Length + 2) >> 8), (byte)(body.Length + 2), .. body];

    private static string Sentence(byte[] bytes) => Jpeg.Clean(bytes).Problem!.Sentence.ToString()!;

    [Fact]
    public void What_a_camera_writes_beside_the_picture_is_not_kept_and_the_picture_is()
    {
        var (body, problem) = Jpeg.Clean(Made(1280, 960));
        Assert.Null(problem);
        var text = Encoding.Latin1.GetString([.. body]);
        Assert.DoesNotContain("where it was taken", text, StringComparison.Ordinal);
        Assert.DoesNotContain("maker", text, StringComparison.Ordinal);
        Assert.Contains("JFIF", text, StringComparison.Ordinal);
        Assert.Contains(new string('U', 200), text, StringComparison.Ordinal);
        // Cleaned again it is the same: an export is taken in as it is.
        Assert.Equal(body, Jpeg.Clean(body.AsSpan()).Body);
    }

    [Fact]
    public void What_hangs_behind_the_end_of_the_picture_is_cut_off()
    {
        byte[] bytes = [.. Made(100, 100), .. "<script>"u8];
        var (body, problem) = Jpeg.Clean(bytes);
        Assert.Null(problem);
        Assert.Equal((0xFF, 0xD9), (body[^2], body[^1]));
    }

    [Fact]
    public void What_is_no_photo_or_too_large_is_refused_in_one_sentence()
    {
        Assert.Contains("is missing", Sentence([]), StringComparison.Ordinal);
        Assert.Contains("a JPEG photo is needed", Sentence([.. "<svg xmlns='…'>"u8]), StringComparison.Ordinal);
        Assert.Contains("a JPEG photo is needed", Sentence([0x89, .. "PNG\r\n\u001a\n"u8]), StringComparison.Ordinal);
        Assert.Contains("at most 400 kB", Sentence(Made(100, 100, scan: 500_000)), StringComparison.Ordinal);
        Assert.Contains("at most 2000 on the longer side", Sentence(Made(4000, 3000)), StringComparison.Ordinal);
        Assert.Contains("breaks off", Sentence(Made(0, 100)), StringComparison.Ordinal);
    }

    [Fact]
    public void However_it_breaks_off_it_is_refused_and_nothing_falls_over()
    {
        var whole = Made(640, 480);
        for (var length = 1; length < whole.Length - 1; length++)
            Assert.NotNull(Jpeg.Clean(whole.AsSpan(0, length)).Problem);
        // Any one byte changed: taken or refused, never an exception, and never more than came.
        for (var at = 0; at < whole.Length; at++)
        for (var value = 0; value < 256; value += 15)
        {
            var changed = (byte[])whole.Clone();
            changed[at] = (byte)value;
            Assert.True(Jpeg.Clean(changed).Body.Length <= changed.Length);
        }
    }
}
