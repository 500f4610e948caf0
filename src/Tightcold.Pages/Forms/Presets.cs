using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;

namespace Tightcold.Pages.Forms;

/// <summary>What usually goes together, for the buttons above the boxes.</summary>
public static class Presets
{
    public static ImmutableArray<Preset> Of(Schema schema)
    {
        ArgumentNullException.ThrowIfNull(schema);
        return schema == Kit.Schema ? Kit.Presets
            : schema == Container.Schema ? Container.Presets
            : EntryKinds.Find(schema.Name) is null ? []
            : EntryKinds.Kind(schema.Name).Presets;
    }

    /// <summary>For the script: each field with its number and its unit.</summary>
    public static string Data(Preset preset, Schema schema)
    {
        ArgumentNullException.ThrowIfNull(preset);
        ArgumentNullException.ThrowIfNull(schema);
        var data = new JsonObject();
        foreach (var set in preset.Sets)
            if (schema.Find(set.Field) is { } field)
            {
                var (number, unit) = Typed.Split(field, set.Text);
                data.Add(set.Field, new JsonArray(number, unit));
            }
        return data.ToJsonString();
    }
}
