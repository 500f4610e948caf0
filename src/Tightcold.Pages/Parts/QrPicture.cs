using System.Globalization;
using System.Text;
using QRCoder;

namespace Tightcold.Pages.Parts;

/// <summary>A QR code as its squares; drawn for a page and for a terminal.</summary>
public sealed class QrPicture
{
    private readonly bool[,] dark;

    private QrPicture(bool[,] dark) => this.dark = dark;

    /// <summary>Squares on a side, with the quiet border that the standard (ISO/IEC 18004) asks for.</summary>
    public int Size => dark.GetLength(0);

    public static QrPicture Of(string text)
    {
        using var data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var rows = data.ModuleMatrix;
        var squares = new bool[rows.Count, rows.Count];
        for (var y = 0; y < rows.Count; y++)
        for (var x = 0; x < rows.Count; x++)
            squares[y, x] = rows[y][x];
        return new(squares);
    }

    public bool IsDark(int x, int y) => y < Size && dark[y, x];

    /// <summary>One path of the dark squares, row by row, for an SVG of <see cref="Size"/> units.</summary>
    public string Path()
    {
        var path = new StringBuilder();
        for (var y = 0; y < Size; y++)
        for (var x = 0; x < Size; x++)
        {
            if (!dark[y, x])
                continue;
            var from = x;
            while (x + 1 < Size && dark[y, x + 1])
                x++;
            path.Append(CultureInfo.InvariantCulture, $"M{from} {y}h{x - from + 1}v1h-{x - from + 1}z");
        }
        return path.ToString();
    }

    /// <summary>Two rows of squares in one line of half blocks; the blocks are the light squares, as a terminal with
    /// light letters on a dark ground shows them.</summary>
    public IEnumerable<string> Lines()
    {
        for (var y = 0; y < Size; y += 2)
        {
            var line = new StringBuilder(Size);
            for (var x = 0; x < Size; x++)
                line.Append(
                    (IsDark(x, y), y + 1 >= Size || IsDark(x, y + 1)) switch
                    {
                        (false, false) => '█',
                        (false, true) => '▀',
                        (true, false) => '▄',
                        _ => ' ',
                    }
                );
            yield return line.ToString();
        }
    }
}
