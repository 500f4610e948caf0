using Tightcold.Jobs.Entries;
using Tightcold.Picture.Now;
using Tightcold.Quantities;

namespace Tightcold.Findings.Now;

/// <summary>The line on top of every page and print: what the job waits for, and the one thing to do next.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Waits">One sentence.</param>
/// <param name="Action">The one thing; null when there is nothing to do.</param>
/// <param name="IsUrgent">It can hurt or spoil while it waits.</param>
/// <param name="Step">The step it belongs to.</param>
public sealed record NowLine(NowKind Kind, Phrase Waits, NextAction? Action, bool IsUrgent, Step Step);
