using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Kinds;

/// <summary>A kind of entry, whole in one file: what it asks for, where in the job it is written, what can hurt while
/// it is done, what is refused, and what it does to the circuit. Form, command line, job file, checks and completion
/// are made from it; a file with a new kind in it is all that they need.</summary>
public abstract class Kind
{
    protected Kind(string name, [Said] string label, params FieldSpec[] fields) => Schema = new(name, label, fields);

    /// <summary>The fields, with what is usual in each and where a form shows it.</summary>
    public Schema Schema { get; }

    public string Name => Schema.Name;

    /// <summary>What it does to what is inside the circuit.</summary>
    public abstract CircuitEffect Effect { get; }

    /// <summary>The steps it is written at, and the how-manieth it stands there; the first is where the journal comes
    /// back to after it.</summary>
    public virtual ImmutableArray<(Step Step, int Rank)> Steps => [];

    /// <summary>Belongs to no step in particular and is offered beside all of them, in this order; null: it is
    /// not.</summary>
    public virtual int? Anywhere => null;

    /// <summary>What can hurt while it is about to be taken; stands where the hands are about to move. Common practice
    /// of the trade.</summary>
    public virtual Phrase Caution => Phrase.Empty;

    /// <summary>What usually goes together, as one tap.</summary>
    public virtual ImmutableArray<Preset> Presets => [];

    /// <summary>What can hurt, or cannot be, in this entry of the kind: never written down.</summary>
    public virtual IEnumerable<InputProblem> Refuse(JobRecord record, Entry entry) => [];

    /// <summary>As somebody typed it; empty where the field was left out.</summary>
    protected static string Typed(Entry entry, string field)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return entry.Fields[field] is FieldValue.Quantity quantity ? quantity.AsTyped : "";
    }
}
