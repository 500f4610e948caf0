using Microsoft.EntityFrameworkCore;

namespace Tightcold.Storage.Mapping;

/// <summary>The tables, as SQLite has them. Entries and kits are only ever added.</summary>
internal class JournalDatabase : DbContext
{
    public JournalDatabase(DbContextOptions<JournalDatabase> options)
        : base(options) { }

    protected JournalDatabase(DbContextOptions options)
        : base(options) { }

    /// <summary>What is to be done with its connection once nobody works with it any more.</summary>
    public Action? Closed { private get; set; }

    public DbSet<CarRow> Cars => Set<CarRow>();
    public DbSet<KitRow> Kits => Set<KitRow>();
    public DbSet<JobRow> Jobs => Set<JobRow>();
    public DbSet<JobKitRow> JobKits => Set<JobKitRow>();
    public DbSet<EntryRow> Entries => Set<EntryRow>();
    public DbSet<PhotoRow> Photos => Set<PhotoRow>();
    public DbSet<JobLineRow> JobLines => Set<JobLineRow>();

    public override void Dispose()
    {
        base.Dispose();
        Closed?.Invoke();
        Closed = null;
        GC.SuppressFinalize(this);
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync().ConfigureAwait(false);
        Closed?.Invoke();
        Closed = null;
        GC.SuppressFinalize(this);
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<CarRow>(row =>
        {
            row.ToTable("cars").HasKey(car => car.Id);
            row.Property(car => car.Id).HasColumnName("id").ValueGeneratedNever();
            row.Property(car => car.FieldsJson).HasColumnName("fields_json");
            row.Property(car => car.LabelKey).HasColumnName("label_key").HasDefaultValue("");
            row.Property(car => car.Digest).HasColumnName("digest").HasDefaultValue("");
            row.HasIndex(car => car.LabelKey);
        });
        modelBuilder.Entity<KitRow>(row =>
        {
            row.ToTable("kits").HasKey(kit => kit.Id);
            row.Property(kit => kit.Id).HasColumnName("id").ValueGeneratedNever();
            row.Property(kit => kit.FromTime).HasColumnName("from_time");
            row.Property(kit => kit.BodyJson).HasColumnName("body_json");
            row.Property(kit => kit.Digest).HasColumnName("digest").HasDefaultValue("");
        });
        modelBuilder.Entity<JobRow>(row =>
        {
            row.ToTable("jobs").HasKey(job => job.Id);
            row.Property(job => job.Id).HasColumnName("id").ValueGeneratedNever();
            row.Property(job => job.CarId).HasColumnName("car_id");
            row.Property(job => job.Number).HasColumnName("number");
            row.Property(job => job.Complaint).HasColumnName("complaint");
            row.Property(job => job.OpenedAt).HasColumnName("opened_at");
            row.Property(job => job.Seed).HasColumnName("seed");
            row.Property(job => job.KitsSince).HasColumnName("kits_since");
            row.Property(job => job.Digest).HasColumnName("digest").HasDefaultValue("");
            row.HasIndex(job => job.Number).IsUnique();
            row.HasOne<CarRow>().WithMany().HasForeignKey(job => job.CarId).OnDelete(DeleteBehavior.Restrict);
        });
        modelBuilder.Entity<JobKitRow>(row =>
        {
            row.ToTable("job_kits").HasKey(kit => new { kit.JobId, kit.KitId });
            row.Property(kit => kit.JobId).HasColumnName("job_id");
            row.Property(kit => kit.KitId).HasColumnName("kit_id");
            row.Property(kit => kit.BodyJson).HasColumnName("body_json");
            row.Property(kit => kit.Digest).HasColumnName("digest").HasDefaultValue("");
            row.HasOne<JobRow>().WithMany().HasForeignKey(kit => kit.JobId).OnDelete(DeleteBehavior.Restrict);
        });
        modelBuilder.Entity<EntryRow>(row =>
        {
            row.ToTable("entries").HasKey(entry => entry.Id);
            row.Property(entry => entry.Id).HasColumnName("id").ValueGeneratedNever();
            row.Property(entry => entry.JobId).HasColumnName("job_id");
            row.Property(entry => entry.Sequence).HasColumnName("sequence");
            row.Property(entry => entry.Kind).HasColumnName("kind");
            row.Property(entry => entry.ObservedAt).HasColumnName("observed_at");
            row.Property(entry => entry.WrittenAt).HasColumnName("written_at");
            row.Property(entry => entry.Who).HasColumnName("who");
            // No foreign key: a correction may arrive before what it corrects, from another device.
            row.Property(entry => entry.Supersedes).HasColumnName("supersedes");
            row.Property(entry => entry.Reason).HasColumnName("reason");
            row.Property(entry => entry.FieldsJson).HasColumnName("fields_json");
            row.Property(entry => entry.Digest).HasColumnName("digest").HasDefaultValue("");
            // Two writers who took the same place in a journal: the second is refused and writes again behind the
            // first.
            row.HasIndex(entry => new { entry.JobId, entry.Sequence }).IsUnique();
            // Empty but for an upgrade that was cut short: each start asks it, and must not read all entries for it.
            row.HasIndex(entry => entry.JobId, "IX_entries_unchained").HasFilter("digest = ''");
            row.HasOne<JobRow>().WithMany().HasForeignKey(entry => entry.JobId).OnDelete(DeleteBehavior.Restrict);
        });
        modelBuilder.Entity<PhotoRow>(row =>
        {
            row.ToTable("photos").HasKey(photo => photo.Id);
            row.Property(photo => photo.Id).HasColumnName("id").ValueGeneratedNever();
            row.Property(photo => photo.JobId).HasColumnName("job_id");
            row.Property(photo => photo.EntryId).HasColumnName("entry_id");
            row.Property(photo => photo.KeptAt).HasColumnName("kept_at");
            row.Property(photo => photo.BodyBase64).HasColumnName("body_base64");
            row.Property(photo => photo.Digest).HasColumnName("digest");
            row.HasIndex(photo => photo.JobId);
            row.HasOne<JobRow>().WithMany().HasForeignKey(photo => photo.JobId).OnDelete(DeleteBehavior.Restrict);
        });
        modelBuilder.Entity<JobLineRow>(row =>
        {
            row.ToTable("job_lines").HasKey(line => line.JobId);
            row.Property(line => line.JobId).HasColumnName("job_id").ValueGeneratedNever();
            row.Property(line => line.Number).HasColumnName("number");
            row.Property(line => line.CarId).HasColumnName("car_id");
            row.Property(line => line.CarLabel).HasColumnName("car_label");
            row.Property(line => line.Complaint).HasColumnName("complaint");
            row.Property(line => line.State).HasColumnName("state");
            row.Property(line => line.WaitingFor).HasColumnName("waiting_for");
            row.Property(line => line.OpenedAt).HasColumnName("opened_at");
            row.Property(line => line.LastEntryAt).HasColumnName("last_entry_at");
            row.Property(line => line.Entries).HasColumnName("entries");
            row.Property(line => line.SearchKey).HasColumnName("search_key");
            row.HasIndex(line => line.Number).IsUnique();
            // A search that few lines fit reads all keys: from an index of their own, a third of the table's pages.
            row.HasIndex(line => new { line.Number, line.SearchKey });
            row.HasIndex(line => new { line.State, line.Number });
            row.HasIndex(line => new { line.CarId, line.Number });
            row.HasOne<JobRow>()
                .WithOne()
                .HasForeignKey<JobLineRow>(line => line.JobId)
                .OnDelete(DeleteBehavior.Restrict);
        });
    }
}
