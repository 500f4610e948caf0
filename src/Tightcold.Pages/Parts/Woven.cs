using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Tightcold.Pages.Parts;

/// <summary>A sentence with elements in it, such as a link or a number set apart: one message whose places <c>{0}</c>,
/// <c>{1}</c>, <c>{2}</c> stand where the language puts them.</summary>
public sealed class Woven : ComponentBase
{
    /// <summary>The message as it is said, its places still in it.</summary>
    [Parameter, EditorRequired]
    public string Text { get; set; } = "";

    [Parameter]
    public RenderFragment? First { get; set; }

    [Parameter]
    public RenderFragment? Second { get; set; }

    [Parameter]
    public RenderFragment? Third { get; set; }

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        var from = 0;
        for (var at = 0; at + 2 < Text.Length; at++)
        {
            if (Text[at] != '{' || Text[at + 2] != '}' || Place(Text[at + 1]) is not { } place)
                continue;
            builder.AddContent(0, Text[from..at]);
            builder.AddContent(1, place);
            from = at + 3;
            at = from - 1;
        }
        builder.AddContent(2, Text[from..]);
    }

    private RenderFragment? Place(char number) =>
        number switch
        {
            '0' => First,
            '1' => Second,
            '2' => Third,
            _ => null,
        };
}
