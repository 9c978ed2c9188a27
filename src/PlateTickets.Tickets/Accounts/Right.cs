namespace PlateTickets.Tickets.Accounts;

/// <summary>What a person or a program may do here. Pages, buttons and endpoints ask for one of these, never for a role.</summary>
[Flags]
public enum Right
{
    None = 0,

    /// <summary>See orders, tickets, sheets, the board, the plan, recipes and stock.</summary>
    Look = 1,

    /// <summary>Enter orders and separations, ask for promises.</summary>
    EnterOrders = 2,

    /// <summary>Lay plates out on sheets and release or undo a layout.</summary>
    LayOut = 4,

    /// <summary>Scan at a station, record readings there, print travelers.</summary>
    WorkStations = 8,

    /// <summary>Skip or repeat a stage, decide about a reading out of limits.</summary>
    DecideStages = 16,

    /// <summary>Recipes, step tests and lamp readings.</summary>
    KeepRecipes = 32,

    /// <summary>Deliveries, counts and remnants.</summary>
    KeepStock = 64,

    /// <summary>Machines down, people on duty, rush and hold.</summary>
    ChangePlan = 128,

    /// <summary>The settings of the room, its tablets and the hours of its shifts.</summary>
    KeepRoom = 256,

    /// <summary>The record of who changed what.</summary>
    ReadAudit = 512,

    /// <summary>Accounts, badges and API keys.</summary>
    KeepAccounts = 1024,

    /// <summary>Backups and the state of the program.</summary>
    KeepProgram = 2048,

    /// <summary>Quality charts, remakes and reports of the whole room.</summary>
    SeeFigures = 4096,
}
