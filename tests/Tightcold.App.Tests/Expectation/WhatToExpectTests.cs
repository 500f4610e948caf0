using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.App.Expectation;
using Tightcold.Diagnosis.Faults;
using Tightcold.Jobs.Cars;
using Tightcold.Loop.Results;
using Tightcold.Quantities;

namespace Tightcold.App.Tests.Expectation;

public sealed class WhatToExpectTests
{
    private static ExpectationDay Day(params string[] fields)
    {
        var (bag, problems) = FieldReader.Read(
            ExpectationDay.Schema,
            fields.ToDictionary(f => f.Split('=')[0], f => f.Split('=')[1]),
            CultureInfo.InvariantCulture
        );
        Assert.Empty(problems);
        return new ExpectationDay(bag);
    }

    private static Car ACar(params string[] fields)
    {
        var (bag, problems) = FieldReader.Read(
            Car.Schema,
            fields.ToDictionary(f => f.Split('=')[0], f => f.Split('=')[1]),
            CultureInfo.InvariantCulture
        );
        Assert.Empty(problems);
        return new Car(Guid.Empty, bag);
    }

    [Fact]
    public void A_car_of_the_book_gives_its_label_charge_and_architecture_to_the_model()
    {
        var car = ACar(
            "label=van",
            "refrigerant=R-1234yf",
            "label-charge=520 g",
            "compressor=variable",
            "device=expansion valve"
        );
        var sheet = WhatToExpect.For(car, Day("ambient=30 C"), []);
        Assert.Equal("R1234yf", sheet.Model.Refrigerant.Name);
        Assert.Equal(0.52, sheet.Model.Design.LabelChargeKg, 1e-9);
        Assert.Equal(Loop.Designs.CompressorKind.Variable, sheet.Model.Design.Compressor);
        var column = Assert.Single(sheet.Columns);
        Assert.Equal(LoopState.Steady, column.State);
    }

    [Fact]
    public void Every_reading_says_that_it_is_modelled_and_how_far_cars_of_its_kind_spread()
    {
        var sheet = WhatToExpect.For(
            null,
            Day("ambient=32 C", "humidity=40 %"),
            [
                [new(NamedFault.Find("low-charge")!, 0.6)],
            ]
        );
        Assert.Equal(2, sheet.Columns.Length);
        Assert.All(sheet.Columns, column => Assert.All(column.Readings, estimate =>
            {
                Assert.Equal(EstimateOrigin.Modelled, estimate.Origin);
                Assert.InRange(estimate.Median!.Value, estimate.Low!.Value, estimate.High!.Value);
            }));
        var low = sheet.Columns[0].Readings.Single(estimate => estimate.Key == "low-side");
        Assert.True(low.High - low.Low > 0.1e5);
        Assert.Contains("bubbles", sheet.Columns[1].StateWords, StringComparison.Ordinal);
        Assert.NotEmpty(sheet.Assumptions);
    }

    [Fact]
    public void Gauges_read_against_the_air_of_the_place()
    {
        double Parked(string altitude) =>
            WhatToExpect
                .For(
                    null,
                    Day("ambient=25 C", altitude),
                    [
                        [new(NamedFault.Find("slipping-clutch")!, 1)],
                    ]
                )
                .Columns[1]
                .Readings.Single(estimate => estimate.Key == "low-side")
                .Median!.Value;
        // Saturation 665.4 kPa abs at 25 °C (equation of state); 1500 m: 84.56 kPa in the standard atmosphere.
        Assert.Equal(564.1e3, Parked("altitude=0 m"), 500.0);
        Assert.Equal(580.8e3, Parked("altitude=1500 m"), 500.0);
    }

    [Fact]
    public void The_same_question_has_the_same_sheet() =>
        Assert.Equal(
            WhatToExpect.For(null, Day("ambient=31 C"), []).Columns[0].Readings,
            WhatToExpect.For(null, Day("ambient=31 C"), []).Columns[0].Readings
        );

    [Fact]
    public void Every_named_fault_moves_something_in_some_car_and_none_breaks_the_model()
    {
        foreach (var fault in NamedFault.All)
        {
            var moved = false;
            foreach (var kind in new[] { Car.Cycling, Car.Fixed, Car.Variable, Car.Electric })
            {
                var sheet = WhatToExpect.For(
                    null,
                    Day("ambient=28 C", $"compressor={kind}"),
                    [
                        [new(fault, fault.UsualSeverity)],
                    ]
                );
                Assert.NotEqual(LoopState.NotClosed, sheet.Columns[1].State);
                moved |= !sheet.Columns[0].Readings.SequenceEqual(sheet.Columns[1].Readings);
            }

            Assert.True(moved, fault.Key);
        }
    }

    [Fact]
    public void A_sweep_over_charge_writes_a_line_for_each_step()
    {
        var sheet = WhatToExpect.For(null, Day("ambient=30 C"), []);
        var sweep = LoopSweep.Run(sheet, [], null, "charge", 0.2, 1.6, 12)!;
        var lines = sweep.Csv().TrimEnd('\n').Split('\n');
        Assert.Equal(13, lines.Length);
        Assert.All(lines, line => Assert.Equal(lines[0].Split(',').Length, line.Split(',').Length));
        Assert.Contains("<polyline", SweepPlot.Svg(sweep), StringComparison.Ordinal);
        Assert.Null(LoopSweep.Run(sheet, [], null, "nothing", 0, 1, 3));
    }

    [Fact]
    public async Task A_car_read_after_a_mend_and_proven_cold_is_foretold_more_narrowly_and_the_sheet_says_so()
    {
        var store = new Desk.MemoryStore();
        var number = await Demo.DemoScenario.PlayAsync(store, null, TestContext.Current.CancellationToken);
        var record = (await store.RecordAsync(number, TestContext.Current.CancellationToken))!;
        var earlier = EarlierReadings.Of([new Picture.JobPicture(record)]);
        var day = Day("ambient=30 C", "humidity=45 %");
        var (plain, narrowed) = (WhatToExpect.For(record.Car, day, []), WhatToExpect.For(record.Car, day, [], earlier));
        double Width(ExpectationSheet sheet, string key) =>
            sheet.Columns[0].Readings.Single(estimate => estimate.Key == key) is var found
                ? found.High!.Value - found.Low!.Value
                : 0;
        Assert.NotEmpty(earlier.Points);
        foreach (var key in new[] { "low-side", "high-side", "vent" })
            Assert.True(
                Width(narrowed, key) < Width(plain, key),
                $"{key}: {Width(narrowed, key)} against {Width(plain, key)}"
            );
        Assert.Contains(narrowed.Assumptions, phrase =>
            phrase.ToString().Contains("Narrowed by", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(plain.Assumptions, phrase =>
            phrase.ToString().Contains("Narrowed by", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Readings_of_a_car_that_was_not_proven_cold_narrow_nothing()
    {
        var store = new Desk.MemoryStore();
        var number = await Demo.DemoScenario.PlayAsync(store, null, TestContext.Current.CancellationToken);
        var record = (await store.RecordAsync(number, TestContext.Current.CancellationToken))!;
        var (before, _) = Jobs.Journals.Journal.Create(
            record.Journal.All.Where(entry => entry.ObservedAt < Demo.DemoScenario.Start.AddMinutes(60))
        );
        Assert.Empty(EarlierReadings.Of([new Picture.JobPicture(record with { Journal = before! })]).Points);
    }
}
