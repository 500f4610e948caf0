using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Tightcold.Storage.Mapping;

/// <summary>The same tables on a PostgreSQL server; a context of its own, because migrations belong to one
/// provider.</summary>
internal sealed class PostgresDatabase(DbContextOptions<PostgresDatabase> options) : JournalDatabase(options)
{
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<DateTimeOffset>().HaveConversion<TimeText>();

    /// <summary>The server's own type keeps neither the offset nor the last digit of a moment; the text SQLite keeps
    /// does both.</summary>
    internal sealed class TimeText()
        : ValueConverter<DateTimeOffset, string>(
            moment => moment.ToString("yyyy-MM-dd HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture),
            text => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.None)
        );
}
