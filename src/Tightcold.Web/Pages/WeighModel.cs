using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.WeighIn;

namespace Tightcold.Web.Pages;

/// <summary>The live weigh-in page: where it stands, and what was typed when it was refused.</summary>
/// <param name="Id">Of the reading that this form will write, so that sending it twice writes it once.</param>
public sealed record WeighModel(
    JobPicture Picture,
    Guid Id,
    string? Container,
    string Gross,
    string Unit,
    IReadOnlyList<InputProblem> Problems
)
{
    public JobRecord Record => Picture.Record;
    public LiveWeighIn Live => Picture.WeighIn;
}
