using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tightcold.Storage.Migrations
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
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    fields_json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_cars", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "kits",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    from_time = table.Column<DateTimeOffset>(type: "TEXT", nullable: false),
                    body_json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_kits", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "jobs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    car_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    complaint = table.Column<string>(type: "TEXT", nullable: false),
                    opened_at = table.Column<DateTimeOffset>(type: "TEXT", nullable: false),
                    seed = table.Column<int>(type: "INTEGER", nullable: false),
                    kits_since = table.Column<DateTimeOffset>(type: "TEXT", nullable: true)
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
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    job_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", nullable: false),
                    observed_at = table.Column<DateTimeOffset>(type: "TEXT", nullable: false),
                    written_at = table.Column<DateTimeOffset>(type: "TEXT", nullable: false),
                    who = table.Column<string>(type: "TEXT", nullable: false),
                    supersedes = table.Column<Guid>(type: "TEXT", nullable: true),
                    reason = table.Column<string>(type: "TEXT", nullable: true),
                    fields_json = table.Column<string>(type: "TEXT", nullable: false)
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
                    job_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kit_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    body_json = table.Column<string>(type: "TEXT", nullable: false)
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

            migrationBuilder.CreateIndex(
                name: "IX_entries_job_id",
                table: "entries",
                column: "job_id");

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
                name: "kits");

            migrationBuilder.DropTable(
                name: "jobs");

            migrationBuilder.DropTable(
                name: "cars");
        }
    }
}
