using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Tightcold.Storage.Mapping;

/// <summary>A sum over all that a row says, kept in the row: a letter that changed on the disk is found by
/// <c>check</c>. Entries have more than that, a chain (<see cref="Jobs.Journals.JournalChain"/>).</summary>
internal static class RowSum
{
    public static string Of(CarRow row) => Sum("car", row.Id.ToString(), row.FieldsJson, row.LabelKey);

    public static string Of(KitRow row) => Sum("kit", row.Id.ToString(), Stamp(row.FromTime), row.BodyJson);

    public static string Of(JobKitRow row) => Sum("job kit", row.JobId.ToString(), row.KitId.ToString(), row.BodyJson);

    public static string Of(JobRow row) =>
        Sum(
            "job",
            row.Id.ToString(),
            row.CarId.ToString(),
            row.Number.ToString(CultureInfo.InvariantCulture),
            row.Complaint,
            Stamp(row.OpenedAt),
            row.Seed.ToString(CultureInfo.InvariantCulture),
            row.KitsSince is { } since ? Stamp(since) : ""
        );

    public static string Of(PhotoRow row) =>
        Sum(
            "photo",
            row.Id.ToString(),
            row.JobId.ToString(),
            row.EntryId.ToString(),
            Stamp(row.KeptAt),
            row.BodyBase64
        );

    /// <summary>False where a sum is there and says something else; a row from before there were sums has
    /// none.</summary>
    public static bool Fits(string kept, string sum) => kept.Length == 0 || kept == sum;

    private static string Stamp(DateTimeOffset moment) => moment.ToString("O", CultureInfo.InvariantCulture);

    private static string Sum(params IEnumerable<string> parts) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f', parts))));
}
