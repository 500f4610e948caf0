using Tightcold.SecondWorld.Cars;
using Tightcold.SecondWorld.Product;
using Tightcold.SecondWorld.Runs;

namespace Tightcold.SecondWorld.Tests;

/// <summary>
/// The runners: data read whole, journals that the product takes, the ordinary gauge table as it is taught.
/// </summary>
public sealed class RunTests
{
    [Fact]
    public void Every_published_row_is_read_and_says_what_it_prints()
    {
        var rows = PublishedRow.Read();
        Assert.Equal(73, rows.Count(row => row.Text("group") == "sound"));
        Assert.Equal(13, rows.Count(row => row.Text("group") == "fault"));
        // Maker's service text, performance test and symptom table, 2010, read as stored page: 25 °C, idle.
        var first = rows.First(row => row.Id == "H01");
        Assert.Equal((1.71, 2.09), first.Range("low"));
        Assert.Equal(13.375, first.Middle("high")!.Value, 1e-9);
        Assert.All(rows, row =>
            Assert.All(row.Text("cause").Split(' ', StringSplitOptions.RemoveEmptyEntries), cause =>
                Assert.True(Enum.TryParse<FaultKind>(cause, out _), cause)
            )
        );
        // A row is told by one fault or flagged, never dropped.
        Assert.Equal(rows.Count, rows.Select(row => row.Id).Distinct().Count());
    }

    [Theory]
    [InlineData(1.0, 8.5, "undercharge")]
    [InlineData(2.2, 15.5, "nothing-wrong")]
    [InlineData(4.0, 22.5, "condenser-air")]
    [InlineData(5.0, 8.5, "compressor-worn")]
    [InlineData(-0.5, 8.5, "valve-stuck-closed")]
    [InlineData(6.6, 6.9, "compressor-worn")]
    public void The_gauge_table_says_what_the_trade_teaches(double low, double high, string first) =>
        Assert.Equal(first, PlainTable.Of(new(low, high, 30, 10, true, false, false, false))[0]);

    [Fact]
    public void A_case_of_the_second_world_is_a_job_that_the_journal_takes()
    {
        var one = CaseMaker.Draw(4, 0.3);
        var record = CarJob.Of(one);
        Assert.Equal(one.Points.Count, record.Journal.OfKind("running-reading").Count());
        Assert.Single(record.Journal.OfKind("standing-reading"));
        Assert.DoesNotContain(JobBuilder.NotTaken.Keys, key => key.Contains("out of range", StringComparison.Ordinal));
    }

    [Fact]
    public void Calibration_error_is_the_distance_of_said_from_was()
    {
        var bins = new Reliability();
        for (var i = 0; i < 10; i++)
            bins.Add(0.8, i < 6);
        for (var i = 0; i < 10; i++)
            bins.Add(0.2, i < 2);
        Assert.Equal(0.1, bins.Error, 1e-9);
    }

    [Fact]
    public void Every_fault_of_the_second_world_has_a_name_in_the_product() =>
        Assert.All(Enum.GetValues<FaultKind>(), kind => Assert.NotEmpty(FaultNames.Of(kind, Device.ExpansionValve)));
}
