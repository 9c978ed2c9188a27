using System.Text;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Audit;

namespace PlateTickets.Web.Api;

/// <summary>The audit trail as a file, with the filters of its page.</summary>
internal static class AuditApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/audit.csv", ExportAsync).Needs(Right.ReadAudit)
        .WithSummary("Entries of the audit trail as CSV, newest first")
        .WithDescription(
            "who is a whole name; record a kind such as Order; key a number or name; field a field such as Title; text is found anywhere. "
            + "from is included, to is not; both with offset (RFC 3339). Each row has the entry's hash. The file is sent while it is read.")
        .Produces(StatusCodes.Status200OK, contentType: "text/csv");

    private static IResult ExportAsync(
        AuditQueries queries, AuditWords words, string? who = null, string? record = null, string? key = null, string? field = null, string? text = null,
        DateTimeOffset? from = null, DateTimeOffset? to = null)
    {
        if (from >= to)
        {
            throw new BadHttpRequestException("“from” must lie before “to”.");
        }

        var filter = new AuditAsk { Who = who, Record = record, Key = key, Field = field, Text = text }.Filter(from?.UtcDateTime, to?.UtcDateTime, words.Fields);
        return TypedResults.Stream(
            async body =>
            {
                await body.WriteAsync(Csv.Mark.ToArray());
                await using var writer = new StreamWriter(body, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true);
                await AuditCsv.WriteAsync(writer, queries.AllAsync(filter));
            },
            "text/csv", "audit.csv");
    }
}
