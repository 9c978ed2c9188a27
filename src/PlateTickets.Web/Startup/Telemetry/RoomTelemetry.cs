using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Database;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Sites;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Startup.Telemetry;

/// <summary>
/// Figures, traces and health for whoever watches the program. Figures are read from /metrics; traces are sent only where the standard
/// variable OTEL_EXPORTER_OTLP_ENDPOINT says where to.
/// </summary>
internal static class RoomTelemetry
{
    public const string Live = "/health/live";
    public const string Ready = "/health/ready";
    public const string Figures = "/metrics";

    private const string Endpoint = "OTEL_EXPORTER_OTLP_ENDPOINT";

    public static void AddServices(IServiceCollection services, IConfiguration configuration)
    {
        services.AddSingleton<RoomMetrics>();
        services.AddSingleton<RoomGauges>();
        services.AddHealthChecks().AddCheck<DatabaseAnswers>("database", timeout: TimeSpan.FromSeconds(5));
        var site = SiteOptions.Of(configuration);
        var sends = !string.IsNullOrEmpty(configuration[Endpoint]);
        var watched = services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService(RoomMetrics.Name, serviceNamespace: site.IsAlone ? null : site.Value, serviceVersion: ProgramVersion.Text))
            .WithMetrics(metrics =>
            {
                metrics.AddMeter(
                    RoomMetrics.NameAt(site), "System.Runtime", "Npgsql", "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel",
                    "Microsoft.AspNetCore.Components.Server.Circuits");
                metrics.AddPrometheusExporter();
                if (sends)
                {
                    metrics.AddOtlpExporter();
                }
            });
        if (sends)
        {
            watched.WithTracing(traces => traces.AddSource(RoomMetrics.Name, "Npgsql").AddAspNetCoreInstrumentation().AddOtlpExporter());
        }
    }

    public static void Map(WebApplication app)
    {
        // Made here, so that it counts from the start and not from the first question.
        app.Services.GetRequiredService<RoomGauges>();
        string[] get = ["GET"];
        app.MapHealthChecks(Live, new HealthCheckOptions { Predicate = _ => false }).WithMetadata(new HttpMethodMetadata(get)).AllowAnonymous();
        app.MapHealthChecks(Ready, new HealthCheckOptions { ResponseWriter = SayAsync }).WithMetadata(new HttpMethodMetadata(get)).AllowAnonymous();
        app.MapPrometheusScrapingEndpoint(Figures).WithMetadata(new HttpMethodMetadata(get)).Needs(Right.KeepProgram);
    }

    // Nobody is asked who he is: the sentences name no place.
    private static Task SayAsync(HttpContext context, HealthReport report)
    {
        context.Response.ContentType = "text/plain";
        var sentences = report.Entries.Values.Where(e => e.Status != HealthStatus.Healthy).Select(e => DatabaseFault.Of(e.Exception)?.Sentence ?? e.Description ?? $"{e.Status}");
        return context.Response.WriteAsync(report.Status == HealthStatus.Healthy ? $"{report.Status}" : string.Join(" ", sentences), context.RequestAborted);
    }

    /// <summary>A node is ready while its database answers and takes what is written.</summary>
    private sealed class DatabaseAnswers(IDbContextFactory<PlateRoomDb> databases, RoomDatabase database) : IHealthCheck
    {
        public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
        {
            if (database.Watch.Trouble is { } trouble)
            {
                return HealthCheckResult.Unhealthy(trouble.Sentence);
            }

            await using var db = await databases.CreateDbContextAsync(cancellationToken);
            return await db.Sites.AsNoTracking().AnyAsync(cancellationToken) ? HealthCheckResult.Healthy() : HealthCheckResult.Unhealthy("There is no room in the database.");
        }
    }
}
