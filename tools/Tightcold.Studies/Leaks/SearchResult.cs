namespace Tightcold.Studies.Leaks;

/// <summary>How a way of searching did.</summary>
/// <param name="AllFound">Share of leaking cars where every leak was found by the end.</param>
/// <param name="MeanChecks">Checks made, mean.</param>
/// <param name="MeanMinutes">Minutes, mean.</param>
/// <param name="WronglyNamed">Sound spots called leaking, mean per car.</param>
public readonly record struct SearchResult(double AllFound, double MeanChecks, double MeanMinutes, double WronglyNamed);
