namespace Tightcold.Pages.Asked;

/// <summary>The three lights of the site.</summary>
public enum Light
{
    /// <summary>Black on white, for the sun.</summary>
    Day,

    /// <summary>Pale on dark, for a garage in the evening.</summary>
    Dark,

    /// <summary>Red on black, for the search with a UV lamp.</summary>
    Night,
}

/// <summary>What a light is called where it is kept and in the style sheet.</summary>
public static class LightWords
{
    public static string Name(Light light) =>
        light switch
        {
            Light.Dark => "dark",
            Light.Night => "night",
            _ => "day",
        };

    public static Light Named(string? name) =>
        name switch
        {
            "dark" => Light.Dark,
            "night" => Light.Night,
            _ => Light.Day,
        };
}
