using System.Text;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.LogStore.Lines;

namespace Tightcold.LogStore.Kept;

/// <summary>A car as it was saved last, with what it is found and ordered by.</summary>
internal sealed class KeptCar(Car car)
{
    private readonly byte[] order = Encoding.UTF8.GetBytes(SearchKey.Of(car.Label));

    public Car Car { get; } = car;

    public string Key { get; } = SearchKey.Of(car.Label);

    /// <summary>Another when anything of the car is.</summary>
    public string Sum { get; } = SumOf(car);

    public static string SumOf(Car car) => LogLine.Hash(JobDocument.WriteCar(car).ToJsonString());

    /// <summary>By name, the letters in the order of their numbers in Unicode, which is that of their bytes in UTF-8
    /// and the database's, and not .NET's own for letters beyond 16 bits.</summary>
    public static int Order(KeptCar one, KeptCar other) =>
        one.order.AsSpan().SequenceCompareTo(other.order) is not 0 and var first
            ? first
            : one.Car.Id.CompareTo(other.Car.Id);
}
