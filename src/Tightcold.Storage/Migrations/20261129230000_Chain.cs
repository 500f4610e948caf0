using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tightcold.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Chain : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "digest",
                table: "kits",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "digest",
                table: "jobs",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "digest",
                table: "job_kits",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "digest",
                table: "entries",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "digest",
                table: "cars",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "IX_entries_unchained",
                table: "entries",
                column: "job_id",
                filter: "digest = ''");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_entries_unchained",
                table: "entries");

            migrationBuilder.DropColumn(
                name: "digest",
                table: "kits");

            migrationBuilder.DropColumn(
                name: "digest",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "digest",
                table: "job_kits");

            migrationBuilder.DropColumn(
                name: "digest",
                table: "entries");

            migrationBuilder.DropColumn(
                name: "digest",
                table: "cars");
        }
    }
}
