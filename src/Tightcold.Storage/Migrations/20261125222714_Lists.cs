using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tightcold.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Lists : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_entries_job_id",
                table: "entries");

            migrationBuilder.AddColumn<int>(
                name: "sequence",
                table: "entries",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "label_key",
                table: "cars",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "job_lines",
                columns: table => new
                {
                    job_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    car_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    car_label = table.Column<string>(type: "TEXT", nullable: false),
                    complaint = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", nullable: false),
                    waiting_for = table.Column<string>(type: "TEXT", nullable: true),
                    opened_at = table.Column<DateTimeOffset>(type: "TEXT", nullable: false),
                    last_entry_at = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    entries = table.Column<int>(type: "INTEGER", nullable: false),
                    search_key = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_job_lines", x => x.job_id);
                    table.ForeignKey(
                        name: "FK_job_lines_jobs_job_id",
                        column: x => x.job_id,
                        principalTable: "jobs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            // The file numbers its rows as they were written: that is the order of writing.
            migrationBuilder.Sql("""
                UPDATE entries SET sequence = written.n
                FROM (SELECT id, ROW_NUMBER() OVER (PARTITION BY job_id ORDER BY rowid) AS n FROM entries) AS written
                WHERE written.id = entries.id;
                """);

            migrationBuilder.CreateIndex(
                name: "IX_entries_job_id_sequence",
                table: "entries",
                columns: new[] { "job_id", "sequence" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_cars_label_key",
                table: "cars",
                column: "label_key");

            migrationBuilder.CreateIndex(
                name: "IX_job_lines_car_id_number",
                table: "job_lines",
                columns: new[] { "car_id", "number" });

            migrationBuilder.CreateIndex(
                name: "IX_job_lines_number",
                table: "job_lines",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_job_lines_state_number",
                table: "job_lines",
                columns: new[] { "state", "number" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "job_lines");

            migrationBuilder.DropIndex(
                name: "IX_entries_job_id_sequence",
                table: "entries");

            migrationBuilder.DropIndex(
                name: "IX_cars_label_key",
                table: "cars");

            migrationBuilder.DropColumn(
                name: "sequence",
                table: "entries");

            migrationBuilder.DropColumn(
                name: "label_key",
                table: "cars");

            migrationBuilder.CreateIndex(
                name: "IX_entries_job_id",
                table: "entries",
                column: "job_id");
        }
    }
}
