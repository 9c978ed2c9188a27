using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>Reads dropped separations one after the other and shows what each became.</summary>
public sealed partial class SeparationDrop : IDisposable
{
    private const int MostFiles = 200;

    private readonly CancellationTokenSource _leaving = new();
    private bool _reading;

    [Inject]
    public required SeparationIntake Intake { get; set; }

    [Inject]
    public required ArrivalDesk Arrivals { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    /// <summary>The material that the plates will be made of; 0 when none is chosen yet.</summary>
    [Parameter]
    public int MaterialId { get; set; }

    /// <summary>The repeat in mm against which the length around is checked; null when unknown.</summary>
    [Parameter]
    public double? RepeatMm { get; set; }

    /// <summary>Separations that the ticket has already: the new ones are compared with them.</summary>
    [Parameter]
    public IReadOnlyList<Separation> Present { get; set; } = [];

    [Parameter, EditorRequired]
    public EventCallback Changed { get; set; }

    internal List<DroppedFile> Files { get; } = [];

    /// <summary>True when every file was read and can become a plate.</summary>
    internal bool AllGood => !_reading && Files.TrueForAll(f => f.Separation is not null && Trouble(f) is null && (Doubt(f) is null || f.AcceptedBecause.Length > 0));

    internal IReadOnlyList<ReadSeparation> Separations => [.. Files.Where(f => f.Separation is not null).Select(f => f.Separation!)];

    public void Dispose()
    {
        // Not disposed: a read that is still running holds its token.
        _leaving.Cancel();
    }

    /// <summary>Adds a file that came in through the drop folder.</summary>
    internal async Task AddArrivedAsync(int id, string name, long bytes)
    {
        var shown = new DroppedFile(name, bytes) { ArrivedId = id };
        Files.Add(shown);
        _reading = true;
        await Changed.InvokeAsync();
        try
        {
            shown.Separation = await Arrivals.ReadAsync(id, Looking(shown), _leaving.Token);
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left.
        }
        catch (Exception e) when (e is SeparationException or PlateRoomException)
        {
            shown.Refusal = e.Message;
        }
        catch (IOException e)
        {
            shown.Refusal = $"{name} could not be read from the folder of arrived files: {e.Message}";
        }

        _reading = false;
        await Changed.InvokeAsync();
    }

    private async Task Dropped(InputFileChangeEventArgs dropped)
    {
        _reading = true;
        var added = dropped.GetMultipleFiles(MostFiles).Select(f => (Browser: f, Shown: new DroppedFile(f.Name, f.Size))).ToList();
        Files.AddRange(added.Select(a => a.Shown));
        await Changed.InvokeAsync();
        foreach (var (browser, shown) in added)
        {
            await ReadAsync(browser, shown);
        }

        _reading = false;
        await Changed.InvokeAsync();
    }

    private async Task ReadAsync(IBrowserFile browser, DroppedFile shown)
    {
        var last = 0;
        var progress = new Progress<long>(bytes =>
        {
            shown.Read = bytes;
            if (shown.Percent != last)
            {
                last = shown.Percent;
                StateHasChanged();
            }
        });
        var looking = Looking(shown);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(_leaving.Token, shown.LeftOut);
        try
        {
            await using var stream = browser.OpenReadStream(Intake.LongestFile, stop.Token);
            shown.Separation = await Intake.ReadAsync(stream, browser.Name, progress, looking, stop.Token);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // The file was left out, or the page was left: nobody waits for it.
        }
        catch (SeparationException refused)
        {
            shown.Refusal = refused.Message;
        }
        catch (IOException e)
        {
            shown.Refusal = $"{browser.Name} could not be read to its end: {e.Message} Leave it out and drop it again.";
        }
    }

    private Progress<double> Looking(DroppedFile shown) => new(share =>
    {
        shown.Looked = share;
        StateHasChanged();
    });

    /// <summary>What is only said.</summary>
    private IEnumerable<string> Warnings(DroppedFile file) => Findings(file).Where(f => !f.NeedsReason).Select(f => f.Sentence);

    private IReadOnlyList<SeparationFinding> Findings(DroppedFile file)
    {
        List<JobFile> job = [.. Present.Select(JobFile.Of)];
        JobFile? mine = null;
        foreach (var other in Files.Where(f => f.Separation is not null))
        {
            job.Add(JobFile.Of(other.Separation!));
            mine = other == file ? job[^1] : mine;
        }

        return mine is null ? [] : JobFindings.Of(mine, job, Viewer.Units);
    }

    private async Task LeaveOut(DroppedFile file)
    {
        Files.Remove(file);
        await file.LeaveOutAsync();
        await Changed.InvokeAsync();
    }

    private async Task Rename(DroppedFile file, string? colour)
    {
        file.Colour = colour ?? "";
        await Changed.InvokeAsync();
    }

    /// <summary>Why this file cannot become a plate, or null.</summary>
    private string? Trouble(DroppedFile file)
    {
        if (file.Refusal is not null || file.Separation is not { } read)
        {
            return file.Refusal;
        }

        if (MaterialId != 0 && SeparationRules.CheckOne(read.Facts, MaterialId, Room, Viewer.Units) is { } wrong)
        {
            return wrong;
        }

        return Files.Exists(f => f != file && f.Colour.Length > 0 && f.Colour.Equals(file.Colour, StringComparison.OrdinalIgnoreCase))
            ? $"Two files are called {file.Colour}: change one colour, or leave one out."
            : null;
    }

    private async Task Accept(DroppedFile file, string? reason)
    {
        file.AcceptedBecause = reason ?? "";
        await Changed.InvokeAsync();
    }

    /// <summary>The sentences of what needs a person's reason, or null.</summary>
    private string? Doubt(DroppedFile file)
    {
        var doubts = Findings(file).Where(f => f.NeedsReason).Select(f => f.Sentence);
        return string.Join(" ", LengthDoubt(file) is { } length ? doubts.Prepend(length) : doubts) is { Length: > 0 } all ? all : null;
    }

    private string? LengthDoubt(DroppedFile file)
    {
        if (RepeatMm is not { } repeat || MaterialId == 0 || file.Separation is not { } read)
        {
            return null;
        }

        try
        {
            var finding = SeparationRules.Length(read.Facts, repeat, MaterialId, Room, Viewer.Units);
            return SeparationRules.NeedsReason(finding.Verdict) ? finding.Sentence : null;
        }
        catch (PlateRoomException refused)
        {
            return refused.Message;
        }
    }

    /// <summary>What the length around looks like against the repeat. Advice, no refusal: a person knows how many are around.</summary>
    private string Advice(DroppedFile file)
    {
        if (RepeatMm is not { } repeat || MaterialId == 0)
        {
            return "Read. The length is checked once press and cylinder are chosen.";
        }

        return LengthAdvice.For(file.Separation!.Facts.HeightMm, repeat, Room.Materials[MaterialId], Room, Viewer.Units);
    }

    private static string From(DroppedFile file) => file.Separation!.Facts.ColourFrom switch
    {
        ColourSource.FileName when file.Separation.Facts.TagColour is { Length: > 0 } tag && !tag.Equals(file.Colour, StringComparison.OrdinalIgnoreCase) =>
            $"from the file name; the file's tag says {tag}",
        ColourSource.FileName => "from the file name",
        ColourSource.Order => "typed here",
        _ when file.Colour.Length == 0 => "not in the file: type it",
        _ => "from the file's tags",
    };

    private static string SizeOf(long bytes) => bytes switch
    {
        >= 1L << 30 => string.Create(CultureInfo.InvariantCulture, $"{bytes / (double)(1L << 30):0.0} GiB"),
        >= 1L << 20 => string.Create(CultureInfo.InvariantCulture, $"{bytes / (double)(1L << 20):0.0} MiB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Max(1, bytes / 1024)} KiB"),
    };
}
