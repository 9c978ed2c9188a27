using System.Text.Json;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Web.Api;

/// <summary>Turns a refusal into problem details with the same sentence that the pages show.</summary>
internal sealed class RefusalHandler(IProblemDetailsService problems, ILogger<RefusalHandler> log) : IExceptionHandler
{
    private const string RetryAfterSeconds = "5";

    private static readonly Action<ILogger, string, string, Exception?> Failed =
        LoggerMessage.Define<string, string>(LogLevel.Error, new EventId(1, nameof(Failed)), "A call was answered with {Code}: {Why}");

    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        var fault = DatabaseFault.Of(exception);
        var (status, code, errors) = exception switch
        {
            OrderRefusedException order => (StatusCodes.Status422UnprocessableEntity, "order-refused", order.Errors),
            SeparationException => (StatusCodes.Status422UnprocessableEntity, "separation-refused", null),
            PlateRoomException => (StatusCodes.Status409Conflict, "refused", null),
            TicketChangedException => (StatusCodes.Status412PreconditionFailed, "changed-meanwhile", null),
            KeyReusedException => (StatusCodes.Status422UnprocessableEntity, "key-reused", null),
            KeyNotFoundException => (StatusCodes.Status404NotFound, "not-found", null),
            BadHttpRequestException bad => (bad.StatusCode, CodeOf(bad.StatusCode), null),
            _ when fault == DatabaseFault.DiskFull => (StatusCodes.Status507InsufficientStorage, fault.Code, null),
            _ when fault is not null => (StatusCodes.Status503ServiceUnavailable, fault.Code, null),
            _ => (0, "", (IReadOnlyDictionary<string, string>?)null),
        };
        if (status == 0)
        {
            return false;
        }

        if (fault is not null)
        {
            Failed(log, fault.Code, exception.GetBaseException().Message, null);
            httpContext.Response.Headers.RetryAfter = RetryAfterSeconds;
        }

        httpContext.Response.StatusCode = status;
        var problem = new ProblemDetails { Status = status, Detail = fault?.Sentence ?? Sentence(exception), Extensions = { ["code"] = code } };
        if (errors is not null)
        {
            problem.Extensions["errors"] = errors.ToDictionary(e => NamedOrder.FieldName(e.Key), e => new[] { e.Value });
        }

        return await problems.TryWriteAsync(new ProblemDetailsContext { HttpContext = httpContext, ProblemDetails = problem });
    }

    /// <summary>The code of a refusal that has no better one.</summary>
    public static string CodeOf(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => "not-signed-in",
        StatusCodes.Status403Forbidden => "not-allowed",
        StatusCodes.Status404NotFound => "not-found",
        StatusCodes.Status405MethodNotAllowed => "method-not-allowed",
        StatusCodes.Status413PayloadTooLarge => "too-large",
        StatusCodes.Status415UnsupportedMediaType => "unsupported-media-type",
        StatusCodes.Status428PreconditionRequired => "if-match-missing",
        StatusCodes.Status429TooManyRequests => "too-many",
        >= 500 => "program-error",
        _ => "bad-request",
    };

    private static string Sentence(Exception exception) => exception is BadHttpRequestException { InnerException: JsonException json }
        ? $"The body is not the JSON that this address takes: {json.Message}"
        : exception.Message;
}
