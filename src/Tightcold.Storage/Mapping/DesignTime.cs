using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Tightcold.Storage.Mapping;

/// <summary>For the migration tool alone: it needs the tables, not a database.</summary>
internal sealed class DesignTime
    : IDesignTimeDbContextFactory<JournalDatabase>,
        IDesignTimeDbContextFactory<PostgresDatabase>
{
    public JournalDatabase CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<JournalDatabase>().UseSqlite("Data Source=:memory:").Options);

    PostgresDatabase IDesignTimeDbContextFactory<PostgresDatabase>.CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<PostgresDatabase>().UseNpgsql("Host=localhost").Options);
}
