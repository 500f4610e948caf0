using Tightcold.Findings;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>A word for which way a finding points. The mark beside it has its own shape; colour comes third.</summary>
public static class JudgementWords
{
    public static string Word(Finding? finding) =>
        Say.It(
            finding switch
            {
                null or { Certainty: Certainty.NothingYet } => "nothing yet",
                { Judgement: Judgement.Good } => "in order",
                { Judgement: Judgement.Bad } => "not in order",
                { Judgement: Judgement.CannotTell } => "cannot tell",
                _ => "noted",
            }
        );

    /// <summary>Class name of the mark: its shape and its colour.</summary>
    public static string Shape(Finding? finding) =>
        finding switch
        {
            null or { Certainty: Certainty.NothingYet } => "open",
            { Judgement: Judgement.Good } => "good",
            { Judgement: Judgement.Bad } => "bad",
            { Judgement: Judgement.CannotTell } => "unsure",
            _ => "noted",
        };
}
