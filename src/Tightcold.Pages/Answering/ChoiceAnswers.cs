using Tightcold.Pages.Asked;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>The switches of a device: its units, its light, its language, its voice.</summary>
internal static class ChoiceAnswers
{
    public static IEnumerable<PageRow> Rows =>
        [
            PageRow.Takes(Routes.Units, ask =>
                Done(Choice.Units, Choices.Units(ask.Field("system"), ask.Now), Choices.LocalPath(ask.Field("back")))
            ),
            PageRow.Takes(Routes.Light, ask =>
                Done(
                    Choice.Light,
                    LightWords.Name(LightWords.Named(ask.Field("light"))),
                    Choices.LocalPath(ask.Field("back"))
                )
            ),
            PageRow.Takes(Routes.Language, ask =>
                Done(
                    Choice.Language,
                    (AllTongues.Named(ask.Field("language")) ?? AllTongues.English).Name,
                    Choices.LocalPath(ask.Field("back"))
                )
            ),
            PageRow.Takes(Routes.Voice, ask =>
                Done(Choice.Voice, ask.Field("voice") == Choices.On ? Choices.On : "off", Routes.Kit + "#voice")
            ),
        ];

    private static Task<Answer> Done(Choice what, string value, string address) =>
        Task.FromResult<Answer>(new Answer.Remembers(what, value, address));
}
