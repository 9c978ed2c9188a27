using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.AspNetCore.Components;
using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Board;

/// <summary>Writes the cells of a load row, once for all viewers. Figures only: nothing in it was typed by anybody.</summary>
internal static class LoadHtml
{
    private static readonly ConditionalWeakTable<LoadRow, Cells> Written = [];

    public static MarkupString Of(LoadRow row) => Written.GetValue(row, r => new Cells(new MarkupString(Write(r)))).Html;

    private static string Write(LoadRow row)
    {
        var html = new StringBuilder();
        foreach (var cell in row.Cells)
        {
            html.Append("<td class=\"load").Append(cell.Percent is >= 95 ? " full" : "").Append(cell.Closed ? " closed" : "").Append("\">");
            if (cell.Percent is { } percent)
            {
                html.Append(CultureInfo.InvariantCulture, $"<i style=\"height:{percent}%\" aria-hidden=\"true\"></i><span>{percent}</span>");
            }
            else
            {
                html.Append(cell.Closed ? "<span>–</span>" : "<span>down</span>");
            }

            html.Append("</td>");
        }

        return html.ToString();
    }

    private sealed record Cells(MarkupString Html);
}
