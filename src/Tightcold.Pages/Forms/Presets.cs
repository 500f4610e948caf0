using System.Collections.Immutable;
using System.Text.Json;
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
        return JsonSerializer.Serialize(
            preset
                .Sets.Where(set => schema.Find(set.Field) is not null)
                .ToDictionary(
                    set => set.Field,
                    set =>
                        Typed.Split(schema.Find(set.Field)!, set.Text) is var (number, unit)
                            ? new[] { number, unit }
                            : []
                )
        );
    }
}
