using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Findings.Diagnosing;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Now;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Now;

/// <summary>What a job waits for, in words.</summary>
public static class NowWords
{
    public static NowLine Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var now = picture.Now;
        var said = Say(picture, now);
        var (waits, what, tells, minutes, does) = said;
        // What the law keeps from this person never stands on top without its word.
        var action = what.IsEmpty
            ? null
            : LawAndSubstance.Held(
                new NextAction(what, tells, minutes, said.Form?.EntryKind ?? now.EntryKind, does)
                {
                    Known = said.Form?.Known ?? Known(picture, now),
                    First = said.Form?.First,
                },
                picture,
                now.Step
            );
        return new(now.Kind, waits, action, now.IsUrgent, now.Step);
    }

    /// <summary>What is known of the entry to come: the spot that it is about, and the check that tells most
    /// there.</summary>
    private static ImmutableArray<(string Field, string Text)> Known(JobPicture picture, NowPicture now) =>
        now switch
        {
            { EntryKind: EntryKinds.LeakCheck, Where: [var spot, ..] } => [("spot", spot)],
            { EntryKind: EntryKinds.LeakCheck } => LeakWords.Checks(picture.Leaks).FirstOrDefault()?.Known ?? [],
            { EntryKind: EntryKinds.SealChanged or EntryKinds.Closed, Where: [var spot, ..] } => [("spot", spot)],
            { Kind: NowKind.PumpDown or NowKind.PumpOn } => [("action", "started")],
            { Kind: NowKind.HoldIt or NowKind.Holding } => [(FieldNames.PumpValve, "shut")],
            { Kind: NowKind.PumpRuns } => [(FieldNames.PumpValve, "open")],
            { Kind: NowKind.Close } => [("state", "closed")],
            _ => [],
        };

    private readonly record struct Said(Phrase Waits, Phrase What, Phrase Tells, int Minutes, Doing Does)
    {
        /// <summary>The action whose form takes it down; null where it is the one of the picture.</summary>
        public NextAction? Form { get; init; }
    }

    private static Said Of(Phrase waits, NextAction action) =>
        new(waits, action.What, action.Tells, action.Minutes, action.Does) { Form = action };

    private static Said Nothing(Phrase waits) => new(waits, Phrase.Empty, Phrase.Empty, 0, Doing.Looks);

    private static Said Of(Phrase waits, Phrase what, Phrase tells, int minutes, Doing does = Doing.Looks) =>
        new(waits, what, tells, minutes, does);

    private static Said Say(JobPicture picture, NowPicture now)
    {
        // It is about spots or about containers, by what it is; only a usual spot's name is a message.
        var spots = SpotWords.Names(now.Where);
        var container = Phrase.Verbatim(string.Join(", ", now.Where));
        return now.Kind switch
        {
            NowKind.TooMuchIsIn => Of(
                "Too much is in: stop.",
                "Take the surplus out with a recovery machine; never let it out",
                "the right charge",
                20,
                Doing.TakesOut
            ),
            NowKind.CylinderTooFull => Of(
                Phrase.Of($"{container} is too full: it can burst when it warms."),
                "Move some to another cylinder now",
                "a cylinder that may warm",
                15
            ),
            NowKind.CircuitStandsOpen => Of(
                Phrase.Of($"The circuit stands open at {spots}."),
                "Cap or close it, and write that down",
                "the drier takes up the air's water while it stands",
                2
            ),
            NowKind.ContainerGives => Of(
                Phrase.Of($"Enough is in, and {container} still stands open."),
                "Close its valve, and write that down",
                "no gram more than the label",
                1
            ),
            NowKind.MixedWithForeign => Mixed(picture),
            NowKind.ReadingCannotBe => Of(
                "A reading cannot be.",
                "Read both gauges again: vented to zero first, blue hose on the low side, units checked",
                "whether it stands",
                5
            ),
            NowKind.NotTheLabels => new(
                Phrase.Words("Another refrigerant than the label's is inside."),
                IdentificationWords.Recover.What,
                IdentificationWords.Recover.Tells,
                45,
                Doing.TakesOut
            ),
            NowKind.PerhapsAnother => new(
                Phrase.Words("It may hold another refrigerant."),
                IdentificationWords.Identify.What,
                IdentificationWords.Identify.Tells,
                10,
                Doing.Looks
            ),
            NowKind.PumpRuns => Pumps(picture),
            NowKind.Holding => Of(
                "The vacuum is being held.",
                "Read the vacuum and the temperature of the parts",
                "leak, water or tight",
                8
            ),
            NowKind.LookAgain => Of(
                Phrase.Of($"It waits: look again on {Day(now.Since)}."),
                "Read the standing pressure again then, engine off and cold, with the temperature of the air",
                "how fast it leaks",
                10
            ),
            NowKind.Waits => Nothing(
                picture.Record.WaitingFor is { } reason
                    ? Phrase.Of($"It waits for {JobRecord.Waits(reason)}.")
                    : Phrase.Words("It waits.")
            ),
            NowKind.Done => Nothing("Done: the job is closed."),
            _ => Way(picture, now, spots, container),
        };
    }

    private static Phrase Day(DateTimeOffset? day) =>
        Phrase.Verbatim(day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "");

    private static Said Mixed(JobPicture picture) =>
        Of(
            picture.Timeline.Now.ChargedOnto == Foreign.Nitrogen
                ? "Refrigerant went in on top of nitrogen."
                : "Refrigerant went in on top of air.",
            "Have it recovered as contaminated; then evacuate and weigh in fresh",
            "a charge that can be trusted",
            60,
            Doing.TakesOut
        );

    private static Said Pumps(JobPicture picture)
    {
        var forecast = picture.Pump.Forecast;
        var waits = forecast.EnoughSeconds is { } enough
            ? Phrase.Of($"The pump runs; {Measure.Seconds(enough)} at the least.")
            : Phrase.Words("The pump runs.");
        return Of(
            waits,
            "Read the vacuum at the far port, with the temperature of the coldest part",
            "whether water must boil out",
            10
        );
    }

    private static Said Way(JobPicture picture, NowPicture now, Phrase spots, Phrase container)
    {
        return now.Kind switch
        {
            NowKind.Weather => Of(
                "It waits for the weather: every pressure is judged against it.",
                "Write down the air temperature, the humidity and the altitude",
                "what a sound car would show today",
                2
            ),
            NowKind.ReadStanding => Of(
                "It waits for the pressure with the engine off.",
                "Read both gauges with the engine cold and off",
                "whether liquid is left, vapour only, or air got in",
                10
            ),
            NowKind.FindTheHole => Of(
                "It came without pressure: there is a hole, and air and water are inside.",
                "Find the hole: look for oil and damage, then dry nitrogen and soap",
                "where the air got in",
                30
            ),
            NowKind.SearchBeforeAdding => Of(
                "Vapour only is left.",
                "Search the leaks before adding anything",
                "where it went; it must be brought to pressure for that",
                30
            ),
            NowKind.RecoverAndWeigh => Of(
                "Air or another gas is inside.",
                "Have it recovered into a cylinder of its own; check local rules",
                "what came out",
                35,
                Doing.TakesOut
            ),
            NowKind.ReadAtAnotherTemperature => new(
                Phrase.Words("One pressure does not decide what is left."),
                Phrase.Of($"Read both gauges again when the car is {Kelvins(10)} warmer or colder"),
                Phrase.Words("liquid moves the pressure by a quarter, vapour barely"),
                5,
                Doing.Looks
            ),
            NowKind.ReadRunning => Of(
                "It waits for the running pressures.",
                "Run it on full blower for ten minutes, then read both gauges, vent and lines",
                "which faults fit",
                12,
                Doing.RunsCompressor
            ),
            NowKind.TestFurther => Further(picture),
            NowKind.MendTheFault => Fault(picture),
            NowKind.Recover => Of(
                Phrase.Of($"A leak is found: {spots}."),
                "Have what is left recovered and weighed, by who may; check local rules",
                "how much was in, and it stays lawful",
                35,
                Doing.TakesOut
            ),
            NowKind.RecoverOn => Of(
                "The recovery is not at its end: the pressure rose again.",
                "Recover again, wait five minutes, read the gauge",
                "whether the oil still gives off refrigerant",
                15,
                Doing.TakesOut
            ),
            NowKind.MendLeaks => Of(
                Phrase.Of($"Still to mend: {spots}."),
                Phrase.Of($"Mend {spots}, and write down the seal or part"),
                "every leak that was found",
                30
            ),
            NowKind.OilDue => Oil(picture),
            NowKind.CheckMended => Of(
                Phrase.Of($"Mended, not checked again: {spots}."),
                "Soap or detector on what was mended",
                "whether the repair holds",
                5
            ),
            NowKind.PumpDown => Of(
                picture.Timeline.Now.Inside == Inside.Nitrogen ? "Nitrogen is inside." : "It waits for the pump.",
                picture.Timeline.Now.Inside == Inside.Nitrogen
                    ? "Let the nitrogen out slowly, then pull a vacuum on both sides"
                    : "Pull a vacuum on both sides",
                "whether water is left",
                45,
                Doing.PullsVacuum
            ),
            NowKind.PumpOn => Of(
                "Not dry yet.",
                "Pump on with the car warm; then hold again",
                "water leaves, a leak stays",
                60,
                Doing.PullsVacuum
            ),
            NowKind.HoldIt => Of(
                "Pulled down; it waits for the hold.",
                "Shut the valve to the pump and read four times over half an hour, with the temperature",
                "leak, water or tight",
                32
            ),
            NowKind.FindTheLeak => Of("It still leaks.", TightWords.FindIt(picture)[0]),
            NowKind.ProveTightFurther => Of(
                Phrase.Of($"Not proven tight: {TightWords.Sure(picture.Tight)}"),
                TightWords.Further(picture)[0]
            ),
            NowKind.LabelCharge => Of(
                "It waits for the charge on the label.",
                "Read the plate under the bonnet and write it down with the car",
                "how much belongs in",
                3
            ),
            NowKind.NoContainer => Of(
                "No can or cylinder with enough of this refrigerant is in the kit.",
                "Write the can down in the kit",
                "the charge plan",
                2
            ),
            NowKind.WeighIn => WeighIn(picture, container),
            NowKind.ReadVent => Of(
                "It waits for the proof at the vent.",
                "Full blower, coldest setting, ten minutes; thermometer in the centre vent",
                "whether it cools as a sound car would today",
                12,
                Doing.RunsCompressor
            ),
            NowKind.ColdAsksFirst => Of(
                "In this heat the vent alone does not tell.",
                "Read the vent again with humidity and cabin air",
                "whether that is cold for this weather",
                5,
                Doing.RunsCompressor
            ),
            NowKind.ReadVentAgain => Of(
                "The vent does not decide.",
                "Read again after ten minutes at raised speed on recirculated air, out of the sun",
                "whether heat soak or a fault keeps it warm",
                12,
                Doing.RunsCompressor
            ),
            NowKind.NotCold => Of(
                "It does not cool as it should.",
                "Read both gauges, vent and lines",
                "which side is wrong",
                10,
                Doing.RunsCompressor
            ),
            _ => Of("All is done.", "Print the card and close the job", "next time the car tells how fast it leaks", 3),
        };
    }

    private static Said Further(JobPicture picture)
    {
        if (picture.Machine is not { Tests: [var test, ..] } machine)
            return Of(
                "The readings do not name the fault yet.",
                "Read both gauges, vent and line temperatures",
                "which faults fit",
                10,
                Doing.RunsCompressor
            );
        var barometer = machine.Evidence.Evidence.Points is [.., var last] ? last.BarometricPa : 101_325;
        var action = TestWords.Action(test, barometer);
        return new(
            Phrase.Words("The readings do not name the fault yet."),
            action.What,
            Phrase.Words("which fault it is"),
            action.Minutes,
            action.Does
        )
        {
            Form = action,
        };
    }

    private static Said Fault(JobPicture picture)
    {
        var (leading, odds, _) = picture.Machine!.Answer.ByFault()[0];
        var mend = FaultWords.Mend(leading, picture.Machine.Evidence.Evidence.Signs);
        return new(
            Phrase.Of($"Most likely {FaultWords.Name(leading)}: {Odds(odds)}."),
            mend.What,
            mend.Tells,
            mend.Minutes,
            mend.Does
        )
        {
            Form = mend,
        };
    }

    private static Said Oil(JobPicture picture)
    {
        var oil = picture.Mend.Oil;
        var due = (
            new Measure(QuantityKind.LiquidVolume, oil.LowM3 - oil.AddedM3),
            new Measure(QuantityKind.LiquidVolume, oil.HighM3 - oil.AddedM3)
        );
        return new(
            Phrase.Of($"Oil is due: {due}."),
            Phrase.Words("Put it in and write it down; the maker's figure rules"),
            Phrase.Words("the compressor is oiled by what circulates"),
            5,
            Doing.Looks
        );
    }

    private static Said WeighIn(JobPicture picture, Phrase container)
    {
        var live = picture.WeighIn;
        var waits = live.Begun
            ? Phrase.Of($"{Kilograms(Math.Max(0, live.ToGoKg))} to go.")
            : Phrase.Of($"It waits for its charge: {Kilograms(live.TargetKg ?? 0)}.");
        return new(
            waits,
            Phrase.Of($"Draw from {container} by the scale"),
            Phrase.Words("the right amount, to some grams"),
            20,
            Doing.FillsIn
        );
    }
}
