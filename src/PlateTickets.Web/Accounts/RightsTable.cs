using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Endpoints;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>An address and what it asks for.</summary>
/// <param name="Method">GET, POST …; "page" for a page.</param>
/// <param name="Address">The route.</param>
/// <param name="Right">What it needs; null when everybody may come.</param>
internal sealed record Guarded(string Method, string Address, Right? Right)
{
    public bool IsPage => Method == RightsTable.Page;
}

/// <summary>Which page and endpoint needs which right: read from the endpoints themselves, so that it cannot be another than the program's.</summary>
internal static class RightsTable
{
    public const string Page = "page";

    /// <summary>Every page and endpoint, by address. What the framework itself needs (the circuit, scripts, styles) is left out.</summary>
    /// <exception cref="InvalidOperationException">An address says neither which right it needs nor that everybody may come.</exception>
    public static IReadOnlyList<Guarded> Of(IEnumerable<Endpoint> endpoints) =>
    [
        .. endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<ComponentTypeMetadata>() is not null || e.Metadata.GetMetadata<HttpMethodMetadata>() is not null)
            .Where(e => e.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is null && !Pattern(e).StartsWith("/_", StringComparison.Ordinal) && !Pattern(e).Contains("{**", StringComparison.Ordinal))
            .SelectMany(Rows)
            .Distinct()
            .OrderBy(g => !g.IsPage).ThenBy(g => g.Address, StringComparer.Ordinal).ThenBy(g => g.Method, StringComparer.Ordinal),
    ];

    public static string Markdown(IReadOnlyList<Guarded> guarded)
    {
        var text = new StringBuilder();
        text.AppendLine("# Roles and rights").AppendLine();
        text.AppendLine("Made by `dotnet run --project src/PlateTickets.Web -- rights` from the program itself; a test compares it and asks every address as every role.").AppendLine();
        text.AppendLine("## What each role may do").AppendLine();
        text.Append("| right |").AppendJoin("|", Rights.Roles.Select(r => $" {r.Title()} ")).AppendLine("| at most on a shared tablet |");
        text.Append("|---|").Append(string.Concat(Rights.Roles.Select(_ => "---|"))).AppendLine("---|");
        foreach (var right in Rights.All)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {right.Title()} |").AppendJoin("|", Rights.Roles.Select(r => Rights.Of(r).HasFlag(right) ? " yes " : " "))
                .AppendLine(CultureInfo.InvariantCulture, $"| {(Rights.OfTablet.HasFlag(right) ? "yes" : "")} |");
        }

        text.AppendLine().AppendLine("Somebody with several roles has the rights of all of them. An API key has roles too.").AppendLine();
        text.AppendLine("## What each address needs").AppendLine();
        text.Append("| | address | right | nobody |").AppendJoin("|", Rights.Roles.Select(r => $" {r.Title()} ")).AppendLine("|");
        text.Append("|---|---|---|---|").Append(string.Concat(Rights.Roles.Select(_ => "---|"))).AppendLine();
        foreach (var row in guarded)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {row.Method} | `{row.Address}` | {row.Right?.Title() ?? "–"} | {(row.Right is null ? "yes" : "")} |")
                .AppendJoin("|", Rights.Roles.Select(r => row.Right is not { } right || Rights.Of(r).HasFlag(right) ? " yes " : " ")).AppendLine("|");
        }

        return text.ToString().ReplaceLineEndings("\n");
    }

    private static string Pattern(RouteEndpoint endpoint) => "/" + endpoint.RoutePattern.RawText!.TrimStart('/');

    private static IEnumerable<Guarded> Rows(RouteEndpoint endpoint)
    {
        var needs = endpoint.Metadata.GetMetadata<NeedsAttribute>();
        if (needs is null && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null)
        {
            throw new InvalidOperationException($"{Pattern(endpoint)} says neither which right it needs nor that everybody may come.");
        }

        if (endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null)
        {
            return [new(Page, Pattern(endpoint), needs?.Right)];
        }

        return endpoint.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Select(m => new Guarded(m, Pattern(endpoint), needs?.Right));
    }
}
