using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

/// <summary>What the OpenAPI document says beyond the endpoints themselves: how to sign in, headers and an example of every body.</summary>
internal static class ApiDescription
{
    private const string Scheme = "ApiKey";

    private static readonly Dictionary<Type, string> Examples = new()
    {
        [typeof(OrderRequest)] = """
            { "customer": "Northmere Dairy", "title": "Butter foil 250 g", "press": "Press 1, wide film", "cylinder": "Sleeve 400", "due": "2026-11-27T14:00:00+01:00", "copies": 1 }
            """,
        [typeof(ScanBody)] = """
            { "id": "0198f3a2-5c1e-7d44-9b1f-3a6f2f9f7c10", "code": "S7K3M9Q46", "equipment": "frame-1", "action": "Next", "by": "Tom Reed", "readAt": "2026-11-25T08:14:03+00:00" }
            """,
        [typeof(PromiseRequest)] = """
            { "material": "Aster 170", "sheets": [ { "widthMm": 900, "lengthMm": 1200, "plates": 4 } ] }
            """,
        [typeof(TicketChange)] = """
            { "onHold": true, "reason": "The customer checks a colour" }
            """,
    };

    public static void Describe(OpenApiOptions options)
    {
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info.Title = "PlateTickets";
            document.Info.Description =
                "Orders, tickets, scans, the board and travelers of a flexographic plate room. Times are UTC. Every refusal is a problem (RFC 9457) with a code and a sentence. "
                + "Send an API key as “Authorization: Bearer KEY”. Calls are limited to 100 in a second with bursts of 400 for each key; 429 says in Retry-After when to go on. A JSON body has at most 256 KiB.";
            document.Components ??= new OpenApiComponents();
            document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
            {
                [Scheme] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "An API key, made under Accounts or by the command “keys create”." },
            };
            document.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(Scheme, document)] = [] }];
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            if (context.Description.ActionDescriptor.EndpointMetadata.OfType<NeedsAttribute>().LastOrDefault() is { } needs)
            {
                operation.Description = $"{operation.Description}{(string.IsNullOrEmpty(operation.Description) ? "" : " ")}Needs the right to {needs.Right.Title()}.";
            }

            var path = context.Description.RelativePath ?? "";
            if (context.Description.HttpMethod == "POST" && path.StartsWith("api/v1/orders", StringComparison.Ordinal))
            {
                Header(operation, CallKeys.Header, "A key of your own for this call, 1 to 200 characters. The same key again within a week creates nothing and gives the first answer, with Idempotency-Replayed: true.", required: false);
            }

            if (context.Description.HttpMethod == "PATCH")
            {
                Header(operation, "If-Match", "The ETag of the state that you looked at, or *.", required: true);
            }

            return Task.CompletedTask;
        });
        options.AddSchemaTransformer((schema, context, _) =>
        {
            if (Examples.TryGetValue(context.JsonTypeInfo.Type, out var example) && context.JsonPropertyInfo is null)
            {
                schema.Examples = [JsonNode.Parse(example)!];
            }

            return Task.CompletedTask;
        });
    }

    private static void Header(OpenApiOperation operation, string name, string says, bool required) =>
        (operation.Parameters ??= []).Add(new OpenApiParameter
        {
            Name = name,
            In = ParameterLocation.Header,
            Description = says,
            Required = required,
            Schema = new OpenApiSchema { Type = JsonSchemaType.String },
        });
}
