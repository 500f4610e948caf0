using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>How the site names a step.</summary>
public static class StepWords
{
    public static readonly ImmutableArray<Step> All = [.. Enum.GetValues<Step>()];

    public static string Title(Step step) => Say.It(English(step));

    [Said]
    private static string English(Step step) =>
        step switch
        {
            Step.ComplaintAndWeather => "Complaint and weather",
            Step.StandingPressure => "Standing pressure",
            Step.RunningPressures => "Running pressures",
            Step.WhatIsWrong => "What is wrong",
            Step.LeakSearch => "Leak search",
            Step.Recover => "Recover",
            Step.Mend => "Mend",
            Step.PumpDown => "Pump down",
            Step.Hold => "Hold",
            Step.WeighIn => "Weigh in",
            Step.ProveCold => "Prove cold",
            _ => "Every gram",
        };

    /// <summary>The question a step answers; shown while there is no finding.</summary>
    public static string Question(Step step) => Say.It(Asks(step));

    [Said]
    private static string Asks(Step step) =>
        step switch
        {
            Step.ComplaintAndWeather => "What does the driver say, and what is the weather it is judged against?",
            Step.StandingPressure => "Engine off: what is left in the system?",
            Step.RunningPressures => "Engine running: what do both sides say?",
            Step.WhatIsWrong => "Which fault do the readings point to?",
            Step.LeakSearch => "Which joints were checked, by which test, with which outcome?",
            Step.Recover => "Was everything that is left taken out and weighed?",
            Step.Mend => "Which parts, seals and oil went in?",
            Step.PumpDown => "Is the vacuum deep enough for water to boil?",
            Step.Hold => "The pump shut off: does it hold?",
            Step.WeighIn => "Is the right charge in, by weight?",
            Step.ProveCold => "Is the vent as cold as today's weather allows?",
            _ => "Is every gram accounted for?",
        };

    /// <summary>The name in an address, the same in every language: <c>standing-pressure</c>.</summary>
    public static string Slug(Step step) => English(step).ToLowerInvariant().Replace(' ', '-');

    public static Step? FromSlug(string? slug) =>
        All.Where(step => Slug(step) == slug).Select(step => (Step?)step).FirstOrDefault();
}
