using System.Globalization;
using System.Net;
using System.Text;
using Tightcold.App.Units;
using Tightcold.Diagnosis.Inference;
using Tightcold.Findings.Diagnosing;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>
/// Observed against expected as one picture: a row for each reading, with the band of a sound car, the band of the
/// leading explanation and the reading as a diamond. Shapes and words carry it, not colour alone; the same as lines of
/// text by <see cref="Lines"/>.
/// </summary>
public static class ObservedExpected
{
    private const int Width = 360;
    private const int Left = 8;
    private const int RowHeight = 62;
    private const int Top = 62;

    /// <summary>An inline SVG; empty where nothing was read.</summary>
    public static string Svg(JobDiagnosis diagnosis, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        var readings = diagnosis.Answer.Readings;
        if (readings.IsEmpty)
            return "";
        var height = Top + (readings.Length * RowHeight) + 4;
        var svg = new StringBuilder();
        void Add(FormattableString part) => svg.Append(part.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Add(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"currentColor\">"
        );
        Add($"<title>{Escape(Say.It("Observed against expected"))}</title>");
        Add($"<desc>{Escape(string.Join(" ", Lines(diagnosis, units)))}</desc>");
        Add(
            $"<text x=\"4\" y=\"14\">{Escape(Say.It("outlined: a sound car"))}</text><text x=\"4\" y=\"31\">{Escape(Say.It($"filled: {LeadName(diagnosis)}"))}</text><text x=\"4\" y=\"48\">{Escape(Say.It("diamond: read"))}</text>"
        );
        for (var i = 0; i < readings.Length; i++)
            Row(Add, readings[i], Top + (i * RowHeight), diagnosis, units);
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>The picture in words, a line for each reading.</summary>
    public static IReadOnlyList<string> Lines(JobDiagnosis diagnosis, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        ArgumentNullException.ThrowIfNull(units);
        var lead = FaultWords.Name(Lead(diagnosis).Hypothesis);
        return
        [
            .. diagnosis.Answer.Readings.Select(reading =>
            {
                Measure M(double si) => ReadingWords.Value(reading.Channel, si, Barometer(diagnosis, reading));
                var name =
                    diagnosis.Evidence.Evidence.Points.Length > 1
                        ? Phrase.Of($"{ReadingWords.Name(reading.Channel)} of reading {reading.Point + 1}")
                        : Phrase.Words(ReadingWords.Name(reading.Channel));
                return Phrase
                    .Of(
                        $"{name}: read {M(reading.Observed)}; a sound car {(M(reading.Healthy.Low), M(reading.Healthy.High))}; {lead} {(M(reading.Leading.Low), M(reading.Leading.High))}."
                    )
                    .Render(units);
            }),
        ];
    }

    /// <summary>What to look for, in one sentence.</summary>
    public static string LookFor(JobDiagnosis diagnosis)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        return Say.It(
            $"Each diamond is what you read: inside the outline it fits a sound car, inside the filled bar "
                + $"{LeadName(diagnosis)}."
        );
    }

    private static void Row(
        Action<FormattableString> add,
        ReadingCheck reading,
        int y,
        JobDiagnosis diagnosis,
        IMeasureFormat units
    )
    {
        var least = Math.Min(reading.Observed, Math.Min(reading.Healthy.Low, reading.Leading.Low));
        var most = Math.Max(reading.Observed, Math.Max(reading.Healthy.High, reading.Leading.High));
        var margin = Math.Max(0.12 * (most - least), 1e-6);
        (least, most) = (least - margin, most + margin);
        double X(double value) => Left + ((Width - Left - 8) * (value - least) / (most - least));
        var value = units.Format(ReadingWords.Value(reading.Channel, reading.Observed, Barometer(diagnosis, reading)));
        var name = Say.It(ReadingWords.Name(reading.Channel));
        var number =
            diagnosis.Evidence.Evidence.Points.Length > 1
                ? $" {(reading.Point + 1).ToString(CultureInfo.InvariantCulture)}"
                : "";
        add(
            $"<text x=\"4\" y=\"{y + 14}\">{Escape(name + number)}: <tspan font-weight=\"bold\">{Escape(value)}</tspan></text>"
        );
        y += 20;
        add(
            $"<rect x=\"{X(reading.Healthy.Low):F1}\" y=\"{y + 2}\" width=\"{Math.Max(2, X(reading.Healthy.High) - X(reading.Healthy.Low)):F1}\" height=\"10\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
        );
        add(
            $"<rect x=\"{X(reading.Leading.Low):F1}\" y=\"{y + 15}\" width=\"{Math.Max(2, X(reading.Leading.High) - X(reading.Leading.Low)):F1}\" height=\"10\" fill=\"currentColor\" fill-opacity=\"0.45\"/>"
        );
        var x = X(reading.Observed);
        // How far the instrument may be off, nine times in ten; a bar that the diamond hides says nothing.
        var off = 1.645 * reading.SigmaInstrument;
        var (from, to) = (X(Math.Max(least, reading.Observed - off)), X(Math.Min(most, reading.Observed + off)));
        if (to - from > 14)
            add(
                $"<path class=\"may-be-off\" d=\"M{from:F1} {y + 14}H{to:F1}M{from:F1} {y + 8}v12M{to:F1} {y + 8}v12\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>"
            );
        add($"<path d=\"M{x:F1} {y - 1} l5 15 l-5 15 l-5 -15 z\" fill=\"currentColor\"/>");
    }

    private static Belief Lead(JobDiagnosis diagnosis) =>
        diagnosis.Answer.Beliefs.First(belief => !belief.Hypothesis.IsNoneOfThese);

    private static string LeadName(JobDiagnosis diagnosis) => Spoken.Of(FaultWords.Name(Lead(diagnosis).Hypothesis));

    private static double Barometer(JobDiagnosis diagnosis, ReadingCheck reading) =>
        diagnosis.Evidence.Evidence.Points[reading.Point].BarometricPa;

    private static string Escape(string text) => WebUtility.HtmlEncode(text);
}
