using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tightcold.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class First : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "cars",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    fields_json = table.Column<string>(type: "text", nullable: false),
                    label_key = table.Column<string>(type: "text", nullable: false, defaultValue: "")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_cars", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "kits",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    from_time = table.Column<string>(type: "text", nullable: false),
                    body_json = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_kits", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "jobs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    car_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    complaint = table.Column<string>(type: "text", nullable: false),
                    opened_at = table.Column<string>(type: "text", nullable: false),
                    seed = table.Column<int>(type: "integer", nullable: false),
                    kits_since = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_jobs", x => x.id);
                    table.ForeignKey(
                        name: "FK_jobs_cars_car_id",
                        column: x => x.car_id,
                        principalTable: "cars",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "entries",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    job_id = table.Column<Guid>(type: "uuid", nullable: false),
                    sequence = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    observed_at = table.Column<string>(type: "text", nullable: false),
                    written_at = table.Column<string>(type: "text", nullable: false),
                    who = table.Column<string>(type: "text", nullable: false),
                    supersedes = table.Column<Guid>(type: "uuid", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    fields_json = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_entries", x => x.id);
                    table.ForeignKey(
                        name: "FK_entries_jobs_job_id",
                        column: x => x.job_id,
                        principalTable: "jobs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "job_kits",
                columns: table => new
                {
                    job_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    body_json = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_job_kits", x => new { x.job_id, x.kit_id });
                    table.ForeignKey(
                        name: "FK_job_kits_jobs_job_id",
                        column: x => x.job_id,
                        principalTable: "jobs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "job_lines",
                columns: table => new
                {
                    job_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    car_id = table.Column<Guid>(type: "uuid", nullable: false),
                    car_label = table.Column<string>(type: "text", nullable: false),
                    complaint = table.Column<string>(type: "text", nullable: false),
                    state = table.Column<string>(type: "text", nullable: false),
                    waiting_for = table.Column<string>(type: "text", nullable: true),
                    opened_at = table.Column<string>(type: "text", nullable: false),
                    last_entry_at = table.Column<string>(type: "text", nullable: true),
                    entries = table.Column<int>(type: "integer", nullable: false),
                    search_key = table.Column<string>(type: "text", nullable: false)
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

            migrationBuilder.CreateIndex(
                name: "IX_cars_label_key",
                table: "cars",
                column: "label_key");

            migrationBuilder.CreateIndex(
                name: "IX_entries_job_id_sequence",
                table: "entries",
                columns: new[] { "job_id", "sequence" },
                unique: true);

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

            migrationBuilder.CreateIndex(
                name: "IX_jobs_car_id",
                table: "jobs",
                column: "car_id");

            migrationBuilder.CreateIndex(
                name: "IX_jobs_number",
                table: "jobs",
                column: "number",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "entries");

            migrationBuilder.DropTable(
                name: "job_kits");

            migrationBuilder.DropTable(
                name: "job_lines");

            migrationBuilder.DropTable(
                name: "kits");

            migrationBuilder.DropTable(
                name: "jobs");

            migrationBuilder.DropTable(
                name: "cars");
        }
    }
}
