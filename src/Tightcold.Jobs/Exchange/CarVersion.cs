using System.Security.Cryptography;
using System.Text;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Json;

namespace Tightcold.Jobs.Exchange;

/// <summary>What a car says at one time, in short: enough to tell which of two versions holds, without the car. The one
/// written down later does; of two of one moment, or of two of which nobody kept the moment, the one with the larger
/// sum. Every machine so comes to the same car, in whatever order the versions arrive.</summary>
/// <param name="WrittenAt">Null comes before every moment.</param>
/// <param name="Sum">SHA-256 over the car as the job file has it, on one line; 64 hexadecimal digits.</param>
public sealed record CarVersion(Guid Id, DateTimeOffset? WrittenAt, string Sum)
{
    public static CarVersion Of(Car car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return new(
            car.Id,
            car.WrittenAt,
            Convert.ToHexStringLower(
                SHA256.HashData(Encoding.UTF8.GetBytes(JobDocument.OnOneLine(JobDocument.WriteCar(car))))
            )
        );
    }

    /// <summary>Whether a car takes the place of another: all that is needed where everything comes together.</summary>
    public static bool Supersedes(Car car, Car there) => Compare(Of(car), Of(there)) > 0;

    /// <summary>Whether it was written down later for certain: asked where one job comes in alone, so that two versions
    /// of which nobody kept the moment leave what is there.</summary>
    public static bool IsLater(Car car, Car there)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(there);
        return car.WrittenAt is { } moment && (there.WrittenAt is not { } before || moment > before);
    }

    /// <summary>Below zero where <paramref name="one"/> gives way to <paramref name="other"/>.</summary>
    public static int Compare(CarVersion one, CarVersion other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        return Nullable.Compare(one.WrittenAt?.UtcTicks, other.WrittenAt?.UtcTicks) is not 0 and var later
            ? later
            : string.CompareOrdinal(one.Sum, other.Sum);
    }
}
