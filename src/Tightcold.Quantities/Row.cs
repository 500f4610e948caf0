using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;

namespace Tightcold.Quantities;

/// <summary>
/// One of a set whose members stand in a file each: static properties of a partial class. A row is written down when it
/// is made, so that nobody keeps a list of them. Where it stands is said by its number and not by the compiler's order of
/// files: lists, seeds and drawn chance follow it, so a number once given stays.
/// </summary>
/// <typeparam name="T">The partial class.</typeparam>
[SuppressMessage("Design", "CA1000", Justification = "Read as Fault.All, never with its type argument.")]
public abstract class Row<T>
    where T : Row<T>
{
    private static readonly List<T> Made = [];

    /// <param name="order">Its place, from 0.</param>
    /// <param name="key">Stable name for machines and files.</param>
    /// <param name="name">What a person reads.</param>
    protected Row(int order, string key, [Said] string name)
    {
        (Order, Key, Name) = (order, key, name);
        Made.Add((T)this);
    }

    public int Order { get; }

    public string Key { get; }

    [Said]
    public string Name { get; }

    /// <summary>All of them in order.</summary>
    public static ImmutableArray<T> All => InOrder.Rows;

    public static T? Find(string? key) => All.FirstOrDefault(row => row.Key == key);

    public sealed override string ToString() => Key;

    private static class InOrder
    {
        public static readonly ImmutableArray<T> Rows = Sorted();

        [UnconditionalSuppressMessage(
            "Trimming",
            "IL2059",
            Justification = "Whoever trims keeps the rooms whole in which rows stand."
        )]
        private static ImmutableArray<T> Sorted()
        {
            // Asked before any row was touched, the class has not made them yet.
            RuntimeHelpers.RunClassConstructor(typeof(T).TypeHandle);
            return [.. Made.OrderBy(row => row.Order)];
        }
    }
}
