using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Startup;

/// <summary>How often somebody may ask.</summary>
internal static class Limits
{
    /// <summary>Passwords, PINs and codes: typed by people, tried by programs.</summary>
    public const string Door = "door";

    /// <summary>Calls of the API.</summary>
    public const string Api = "api";

    /// <summary>Largest body of a call that is not a file, in bytes.</summary>
    public const int ApiBody = 256 * 1024;

    private const int DoorPerMinute = 60;
    private const int ApiBurst = 400;
    private const int ApiPerSecond = 100;

    public static void AddServices(IServiceCollection services) => services.AddRateLimiter(limiter =>
    {
        limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limiter.OnRejected = (context, _) => new ValueTask(RejectAsync(context));
        limiter.AddPolicy(Door, context => HttpMethods.IsPost(context.Request.Method)
            ? RateLimitPartition.GetFixedWindowLimiter($"{context.Connection.RemoteIpAddress}", _ => new FixedWindowRateLimiterOptions { PermitLimit = DoorPerMinute, Window = TimeSpan.FromMinutes(1) })
            : RateLimitPartition.GetNoLimiter(""));
        // Each key and each person has its own share: one program that runs wild stops nobody else.
        limiter.AddPolicy(Api, context => RateLimitPartition.GetTokenBucketLimiter(
            RoomClaims.NameOf(context.User) is { Length: > 0 } name ? name : $"{context.Connection.RemoteIpAddress}",
            _ => new TokenBucketRateLimiterOptions
            {
                TokenLimit = ApiBurst,
                TokensPerPeriod = ApiPerSecond,
                ReplenishmentPeriod = TimeSpan.FromSeconds(1),
            }));
    });

    private static Task RejectAsync(OnRejectedContext context)
    {
        var wait = context.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? Math.Max(1, (int)Math.Ceiling(after.TotalSeconds)) : 1;
        context.HttpContext.Response.Headers.RetryAfter = wait.ToString(CultureInfo.InvariantCulture);
        return TypedResults.Problem(
            $"Too many calls in a short time. Wait {(wait == 1 ? "a second" : $"{wait} seconds")} and go on.",
            statusCode: StatusCodes.Status429TooManyRequests,
            extensions: new Dictionary<string, object?> { ["code"] = "too-many" }).ExecuteAsync(context.HttpContext);
    }
}
