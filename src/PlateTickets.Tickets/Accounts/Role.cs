namespace PlateTickets.Tickets.Accounts;

/// <summary>The work that a person does here. One person may have several.</summary>
[Flags]
public enum Role
{
    None = 0,

    /// <summary>Customer service: enters orders and promises times.</summary>
    Csr = 1,

    /// <summary>Works at the stations.</summary>
    Operator = 2,

    /// <summary>Keeps recipes, stock and the stations' decisions.</summary>
    Lead = 4,

    /// <summary>Answers for the shift.</summary>
    Manager = 8,

    /// <summary>Keeps accounts and the program itself.</summary>
    Administrator = 16,
}

/// <summary>Which rights come with which role, and what both are called on screen.</summary>
public static class Rights
{
    private const Right Craft = Right.Look | Right.EnterOrders | Right.LayOut | Right.WorkStations | Right.DecideStages | Right.KeepRecipes | Right.KeepStock | Right.ChangePlan
        | Right.SeeFigures;

    /// <summary>What a shared tablet may do at most, whoever holds the badge.</summary>
    public const Right OfTablet = Right.Look | Right.WorkStations | Right.DecideStages;

    public static IReadOnlyList<Role> Roles { get; } = [Role.Csr, Role.Operator, Role.Lead, Role.Manager, Role.Administrator];

    public static IReadOnlyList<Right> All { get; } = [.. Enum.GetValues<Right>().Where(r => r != Right.None)];

    /// <summary>All rights of one or several roles.</summary>
    public static Right Of(Role roles) => Roles.Where(r => roles.HasFlag(r)).Aggregate(Right.None, (sum, role) => sum | OfOne(role));

    public static string Title(this Role role) => role switch
    {
        Role.Csr => "CSR",
        Role.Operator => "operator",
        Role.Lead => "plate-room lead",
        Role.Manager => "manager",
        Role.Administrator => "administrator",
        _ => string.Join(", ", Roles.Where(r => role.HasFlag(r)).Select(Title)),
    };

    public static string Title(this Right right) => right switch
    {
        Right.Look => "see the room",
        Right.EnterOrders => "enter orders",
        Right.LayOut => "lay plates out",
        Right.WorkStations => "work at stations",
        Right.DecideStages => "decide about stages",
        Right.KeepRecipes => "keep recipes",
        Right.KeepStock => "keep stock",
        Right.ChangePlan => "change the plan",
        Right.KeepRoom => "change the room's settings",
        Right.ReadAudit => "read the audit",
        Right.KeepAccounts => "keep accounts",
        Right.KeepProgram => "keep the program",
        Right.SeeFigures => "see quality and reports",
        _ => string.Join(", ", All.Where(r => right.HasFlag(r)).Select(Title)),
    };

    private static Right OfOne(Role role) => role switch
    {
        Role.Csr => Right.Look | Right.EnterOrders | Right.LayOut,
        Role.Operator => Right.Look | Right.WorkStations,
        Role.Lead => Craft,
        Role.Manager => Craft | Right.KeepRoom | Right.ReadAudit,
        Role.Administrator => Right.Look | Right.ReadAudit | Right.KeepAccounts | Right.KeepProgram,
        _ => Right.None,
    };
}
