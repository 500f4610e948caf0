using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Anything in the person's own words; nothing is judged from it.</summary>
internal sealed class NoteKind() : Kind(EntryKinds.Note, "Note", Text(FieldNames.Text, "Note", 2000, required: true))
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override int? Anywhere => 0;
}
