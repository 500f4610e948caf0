using System.Reflection;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.Logging.Abstractions;
using Tightcold.App.Units;
using Tightcold.Findings;
using Tightcold.Jobs.Photos;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Parts;
using Tightcold.Pages.Words;
using Tightcold.Picture;

namespace Tightcold.Pages.Card;

/// <summary>The printable job card: one self-contained HTML page, styles inside, no script, nothing fetched.</summary>
public static class CardPage
{
    /// <summary>Version of the program that made the card, without the build's hash.</summary>
    public static string ProgramVersion { get; } =
        (
            typeof(CardPage).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion
            ?? "unknown"
        ).Split('+')[0];

    /// <param name="views">Car, kit, job and journal, and earlier jobs of the car.</param>
    /// <param name="units">The reader's units.</param>
    /// <param name="printedAt">Stands on the card, in the zone of its own offset.</param>
    /// <param name="cancellation">Stops between gathering and rendering.</param>
    /// <param name="photos">Those of the job; none unless given.</param>
    public static Task<string> RenderAsync(
        JobPicture views,
        ReaderUnits units,
        DateTimeOffset printedAt,
        CancellationToken cancellation,
        IReadOnlyList<Photo>? photos = null
    ) =>
        RenderAsync(
            new JobSight(views, Walk.Of(views), IsWhole: true),
            photos ?? [],
            units,
            printedAt,
            backTo: null,
            cancellation
        );

    /// <summary>The card with findings already computed; <paramref name="backTo"/> adds a link that is not
    /// printed.</summary>
    internal static async Task<string> RenderAsync(
        JobSight sight,
        IReadOnlyList<Photo> photos,
        ReaderUnits units,
        DateTimeOffset printedAt,
        string? backTo,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(sight);
        ArgumentNullException.ThrowIfNull(units);
        cancellation.ThrowIfCancellationRequested();
        var zone = TimeZoneInfo.CreateCustomTimeZone("card", printedAt.Offset, "card", "card");
        var parameters = new Dictionary<string, object?>
        {
            [nameof(CardSheet.Facts)] = new CardFacts(sight, units, photos),
            [nameof(CardSheet.Reader)] = new Reader(units, zone, printedAt),
            [nameof(CardSheet.BackTo)] = backTo,
        };
        var renderer = new HtmlRenderer(new NoServices(), NullLoggerFactory.Instance);
        await using (renderer.ConfigureAwait(false))
        {
            return await renderer
                .Dispatcher.InvokeAsync(async () =>
                    (
                        await renderer
                            .RenderComponentAsync<CardSheet>(ParameterView.FromDictionary(parameters))
                            .ConfigureAwait(true)
                    ).ToHtmlString()
                )
                .ConfigureAwait(false);
        }
    }
}
