using Tightcold.App.Gauges;

namespace Tightcold.App.Tests.Gauges;

public sealed class GaugeLogTests
{
    private static readonly DateTimeOffset Start = new(2031, 7, 4, 23, 50, 0, TimeSpan.Zero);
    private static readonly GaugeLogColumns Columns = new(
        "Time",
        null,
        "Vacuum",
        "micron",
        "Part",
        "°C",
        Start,
        true,
        false
    );

    private static (
        System.Collections.Immutable.ImmutableArray<GaugeLog.Line> Lines,
        IReadOnlyList<Jobs.Fields.InputProblem> Problems
    ) Read(string text, GaugeLogColumns? columns = null)
    {
        using var reader = new StringReader(text);
        return GaugeLog.Read(reader, columns ?? Columns);
    }

    [Theory]
    [InlineData(',')]
    [InlineData(';')]
    [InlineData('\t')]
    public void A_log_becomes_readings_with_their_units_whatever_stands_between_the_columns(char between)
    {
        var (lines, problems) = Read("Time,Vacuum,Part\n23:50:00,210,24.1\n23:58:00,225,24.2\n".Replace(',', between));
        Assert.Empty(problems);
        Assert.Equal("225 micron", lines[1].Fields["absolute-pressure"]);
        Assert.Equal("24.2 °C", lines[1].Fields["part-temperature"]);
        Assert.Equal("shut", lines[1].Fields["pump-valve"]);
    }

    [Fact]
    public void A_log_may_run_past_midnight() =>
        Assert.Equal(Start.AddMinutes(15), Read("Time,Vacuum,Part\n23:50:00,210,24\n00:05:00,215,24\n").Lines[1].At);

    [Fact]
    public void Seconds_count_from_the_start() =>
        Assert.Equal(
            Start.AddSeconds(90),
            Read("t,Vacuum\n0,210\n90,215\n", Columns with { Time = "t", TimeUnit = "s", Temperature = null })
                .Lines[1]
                .At
        );

    [Fact]
    public void Minutes_count_from_the_start() =>
        Assert.Equal(
            Start.AddMinutes(30),
            Read("t,Vacuum\n0,210\n30,215\n", Columns with { Time = "t", TimeUnit = "min", Temperature = null })
                .Lines[1]
                .At
        );

    [Fact]
    public void A_log_with_dates_is_read_by_the_clock_of_the_workshop()
    {
        var start = new DateTimeOffset(2031, 7, 4, 23, 50, 0, TimeSpan.FromHours(-6));
        var (lines, problems) = Read(
            "Time,Vacuum,Part\n2031-07-04 23:50:00,210,24\n2031-07-05 00:05:00,215,24\n",
            Columns with
            {
                Start = start,
            }
        );
        Assert.Empty(problems);
        Assert.Equal([start, start.AddMinutes(15)], lines.Select(line => line.At));
    }

    [Fact]
    public void Times_that_run_backwards_are_refused_with_both_times() =>
        Assert.Contains(
            "backwards",
            Read("t,Vacuum\n90,210\n0,215\n", Columns with { Time = "t", TimeUnit = "s", Temperature = null })
                .Problems[0]
                .Allowed.ToString(),
            StringComparison.Ordinal
        );

    [Fact]
    public void A_column_that_is_not_there_is_refused_and_those_there_are_named() =>
        Assert.Contains(
            "Vacuum",
            Read("Time,Vacuum\n23:50:00,210\n").Problems[0].Allowed.ToString(),
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("")]
    [InlineData("Time,Vacuum,Part\n")]
    [InlineData("Time,Vacuum,Part\n23:50:00,deep,24\n")]
    [InlineData("Time,Vacuum,Part\nnoon,210,24\n")]
    [InlineData("Time,Vacuum,Part\n23:50:00,NaN,24\n")]
    public void What_is_no_log_is_refused_and_nothing_is_taken_in(string text)
    {
        var (lines, problems) = Read(text);
        Assert.Empty(lines);
        Assert.NotEmpty(problems);
    }

    [Fact]
    public void A_long_log_is_thinned_from_its_first_to_its_last_reading()
    {
        var rows = string.Join(
            '\n',
            Enumerable.Range(0, 3600).Select(i => FormattableString.Invariant($"{i},{200 + i / 60}"))
        );
        var (lines, _) = Read("t,Vacuum\n" + rows, Columns with { Time = "t", TimeUnit = "s", Temperature = null });
        Assert.Equal(GaugeLog.MostReadings, lines.Length);
        Assert.Equal(Start.AddSeconds(3599), lines[^1].At);
    }
}
