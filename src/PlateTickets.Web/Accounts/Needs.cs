using Microsoft.AspNetCore.Authorization;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>A page or endpoint that asks for a right.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
public sealed class NeedsAttribute(Right right) : AuthorizeAttribute(right.ToString())
{
    public Right Right { get; } = right;
}

internal sealed record RightRequirement(Right Right) : IAuthorizationRequirement;

internal sealed class RightHandler : AuthorizationHandler<RightRequirement>
{
    protected override Task HandleRequirementAsync(AuthorizationHandlerContext context, RightRequirement requirement)
    {
        if ((RoomClaims.RightsOf(context.User) & requirement.Right) == requirement.Right)
        {
            context.Succeed(requirement);
        }

        return Task.CompletedTask;
    }
}

internal static class NeedsExtensions
{
    public static TBuilder Needs<TBuilder>(this TBuilder endpoint, Right right)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.RequireAuthorization(new NeedsAttribute(right));

    /// <summary>One policy for each right.</summary>
    public static void AddRights(this AuthorizationBuilder authorization)
    {
        foreach (var right in Rights.All)
        {
            authorization.AddPolicy(right.ToString(), policy => policy.RequireAuthenticatedUser().AddRequirements(new RightRequirement(right)));
        }
    }
}
