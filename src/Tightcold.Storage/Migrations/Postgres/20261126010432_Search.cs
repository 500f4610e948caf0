using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tightcold.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Search : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "IX_job_lines_number_search_key",
                table: "job_lines",
                columns: new[] { "number", "search_key" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_job_lines_number_search_key",
                table: "job_lines");
        }
    }
}
