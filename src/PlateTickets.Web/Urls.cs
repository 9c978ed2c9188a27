namespace PlateTickets.Web;

/// <summary>Every address of the program, in one place.</summary>
public static class Urls
{
    public const string Home = "/";
    public const string Orders = "/orders";
    public const string NewOrder = "/orders/new";
    public const string Arrived = "/orders/arrived";
    public const string Import = "/orders/import";
    public const string Documents = "/orders/documents";
    public const string OrdersCsv = "/api/v1/orders.csv";
    public const string OrdersExampleCsv = "/api/v1/orders/example.csv";
    public const string Stations = "/stations";
    public const string Board = "/board";
    public const string Handover = "/handover";
    public const string Timeline = "/timeline";
    public const string WhatIf = "/what-if";
    public const string Layout = "/layout";
    public const string Stock = "/stock";
    public const string Recipes = "/recipes";
    public const string StepTests = "/recipes/step-tests";
    public const string RecipesCsv = "/api/v1/recipes.csv";
    public const string Quality = "/quality";
    public const string QualityRemakes = "/quality/remakes";
    public const string QualityCsv = "/api/v1/quality/chart.csv";
    public const string RemakesCsv = "/api/v1/quality/remakes.csv";
    public const string Reports = "/reports";
    public const string ReportCsv = "/api/v1/report.csv";
    public const string ReportPdf = "/api/v1/report.pdf";
    public const string Settings = "/settings";
    public const string Sites = "/sites";
    public const string Tablets = "/settings/tablets";
    public const string SignIn = "/sign-in";
    public const string SecondFactor = "/sign-in/code";
    public const string CompanySignIn = "/sign-in/company";
    public const string SetUp = "/set-up";
    public const string ChoosePassword = "/password";
    public const string Account = "/account";
    public const string Accounts = "/accounts";
    public const string Keys = "/accounts/keys";
    public const string NotAllowed = "/not-allowed";
    public const string Audit = "/audit";
    public const string AuditCsv = "/api/v1/audit.csv";
    public const string Program = "/program";
    public const string MessagesOut = "/exchange";
    public const string NotFound = "/not-found";

    /// <summary>Not pages: forms are sent here.</summary>
    public const string SignOut = "/door/sign-out";
    public const string DemoSignIn = "/door/demo";
    public const string SingleSignOn = "/door/single-sign-on";
    public const string SingleSignOnAnswer = "/door/single-sign-on/answer";

    /// <summary>What a calendar program reads; the secret is all it needs.</summary>
    public static string Calendar(string secret) => $"/calendar/{secret}.ics";

    /// <summary>What a customer sees of an order; the token is all it needs.</summary>
    public static string Status(string token) => $"/status/{token}";

    /// <summary>An address that knows where to go on.</summary>
    public static string With(string address, string? back) => string.IsNullOrEmpty(back) ? address : $"{address}?back={Uri.EscapeDataString(back)}";

    public static string Password(int accountId, string code) => $"{ChoosePassword}?for={accountId}&code={Uri.EscapeDataString(code)}";

    public static string Document(string id) => $"{Documents}/{id}";

    public static string Document(int id) => Document($"{id}");

    /// <summary>The document's bytes as they came.</summary>
    public static string DocumentXjdf(int id) => $"/api/xjdf/documents/{id}.xjdf";

    public static string Ticket(string number) => $"/tickets/{number}";

    public static string TicketHistory(string number) => $"/tickets/{number}/history";

    public static string Confirmation(string number, string paper = "a4") => $"/api/v1/tickets/{number}/confirmation.pdf?paper={paper}";

    public static string NewOrderWith(int arrivedFile) => $"{NewOrder}?file={arrivedFile}";

    /// <summary>With the image's hash in it the address may be kept for ever: another image has another address.</summary>
    public static string Preview(int separationId, string imageHash) => $"/api/v1/separations/{separationId}/preview.png?v={imageHash[..16]}";

    public static string ArrivedPreview(int arrivedFile) => $"/api/v1/arrivals/{arrivedFile}/preview.png";

    /// <summary>Plates of the orders that were entered in a time, with their ink: from is included, to is not.</summary>
    public static string PlatesCsv(DateTime fromUtc, DateTime toUtc) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"/api/v1/plates.csv?from={fromUtc:yyyy-MM-ddTHH:mm:ss}Z&to={toUtc:yyyy-MM-ddTHH:mm:ss}Z");

    public static string TicketPlatesCsv(string number) => $"/api/v1/tickets/{number}/plates.csv";

    /// <summary>The board through a filter; empty names take all.</summary>
    public static string BoardWith(string customer = "", string press = "", string material = "", string station = "", bool wall = false, string look = "")
    {
        var asked = new[] { ("customer", customer), ("press", press), ("material", material), ("station", station), ("wall", wall ? "true" : ""), ("look", look) }
            .Where(a => a.Item2.Length > 0).Select(a => $"{a.Item1}={Uri.EscapeDataString(a.Item2)}").ToList();
        return asked.Count == 0 ? Board : $"{Board}?{string.Join('&', asked)}";
    }

    public static string HandoverOf(string id) => $"/handover/{id}";

    public static string HandoverOf(int id) => HandoverOf($"{id}");

    public static string HandoverPdf(int id, string paper = "a4") => $"/api/v1/handovers/{id}/handover.pdf?paper={paper}";

    /// <summary>Messages that are waiting, given-up or sent.</summary>
    public static string MessagesOutOf(string show) => $"{MessagesOut}?show={show}";

    public static string WhatIfTicket(string number) => $"{WhatIf}?ticket={number}";

    public static string LayoutOf(int materialId) => $"{Layout}?material={materialId}";

    public static string LayoutTravelers(int layoutId, string paper = "a4") => $"/api/v1/layouts/{layoutId}/travelers.pdf?paper={paper}";

    public static string Station(string slug) => $"/stations/{slug}";

    public static string Sheet(string number) => $"/sheets/{number}";

    public static string DrawerLabels(string slug, string paper = "a4") => $"/api/v1/equipment/{slug}/drawers.pdf?paper={paper}";

    public static string Recipe(string material) => $"/recipes/of/{material}";

    public static string StepTest(string id) => $"{StepTests}/{id}";

    public static string Traveler(string sheetNumber, string paper = "a4") => $"/api/v1/sheets/{sheetNumber}/traveler.pdf?paper={paper}";
}
