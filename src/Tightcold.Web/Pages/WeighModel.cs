using Tightcold.Findings.WeighIn;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Pages;

/// <summary>The live weigh-in page: where it stands, and what was typed when it was refused.</summary>
/// <param name="Id">Of the reading that this form will write, so that sending it twice writes it once.</param>
public sealed record WeighModel(JobRecord Record, LiveWeighIn Live, Guid Id, string? Container, string Gross, string Unit, IReadOnlyList<InputProblem> Problems);
