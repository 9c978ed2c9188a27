using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders.Arrivals;

/// <summary>
/// Takes in the files of the drop folder: onto the shelf, a row for each, then read and given to the ticket that the name asks for, or kept for the CSR.
/// Every step can be done again: a stopped server goes on where it was.
/// </summary>
public sealed class ArrivalDesk(IDbContextFactory<PlateRoomDb> databases, OrderEntry entry, ArrivalShelf shelf, TimeProvider clock)
{
    private const string Acting = "Drop folder";
    private const int MostListed = 200;
    private const int ClearedAtOnce = 200;

    // Reading is heavy, and two at once could give one file twice.
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>Raised when a row was added or changed.</summary>
    public event Action? Changed;

    /// <summary>Says that a row was added or changed elsewhere.</summary>
    public void TellChanged() => Changed?.Invoke();

    /// <summary>Takes one complete file from the drop folder onto the shelf and makes its row. It is not read yet.</summary>
    /// <returns>False when the file changed while it was copied: it is not complete after all.</returns>
    public async Task<bool> TakeAsync(string path, CancellationToken cancel = default)
    {
        if (await shelf.CopyAsync(path, cancel) is not { } sha256)
        {
            return false;
        }

        await AddRowAsync(sha256, Path.GetFileName(path), new FileInfo(path).Length, again: true, cancel);
        ArrivalShelf.Forget(path);
        Changed?.Invoke();
        return true;
    }

    /// <summary>Makes the rows that a stopped server did not get to, and reads what is not read yet.</summary>
    public async Task GoOnAsync(CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            var known = (await db.ArrivedFiles.Select(f => new { f.Sha256, f.FileName }).ToListAsync(cancel)).Select(f => (f.Sha256, f.FileName)).ToHashSet();
            foreach (var (sha256, fileName, bytes) in shelf.All().Where(f => !known.Contains((f.Sha256, f.FileName))))
            {
                await AddRowAsync(sha256, fileName, bytes, again: false, cancel);
            }

            await ReadTakenAsync(cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Reads the files that were taken and decides what becomes of each.</summary>
    public async Task DecideAsync(CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            await ReadTakenAsync(cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>
    /// Deletes from the shelf what nobody will ask for any more: files that were set aside, or whose ticket is done or cancelled. What is known of them stays.
    /// </summary>
    /// <param name="keep">How long a file is kept at least after it came.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>How many, and their bytes.</returns>
    public async Task<(int Files, long Bytes)> ClearAsync(TimeSpan keep, CancellationToken cancel = default)
    {
        var cleared = (Files: 0, Bytes: 0L);
        var before = clock.GetUtcNow().UtcDateTime - keep;
        await _one.WaitAsync(cancel);
        try
        {
            // From what lies there: the rows of years are many more than the files.
            foreach (var some in shelf.All().Chunk(ClearedAtOnce))
            {
                await using var db = await databases.CreateDbContextAsync(cancel);
                db.ActingAs = Acting;
                string[] contents = [.. some.Select(f => f.Sha256).Distinct()];
                var over = (await db.ArrivedFiles.AsNoTracking()
                    .Where(f => contents.Contains(f.Sha256) && f.ArrivedUtc < before && (f.State == ArrivalState.SetAside || f.State == ArrivalState.Given))
                    .Where(f => f.State == ArrivalState.SetAside || !db.Tickets.Any(t => t.Order!.Number == f.TicketNumber && t.State != TicketState.Done && t.State != TicketState.Cancelled))
                    .Select(f => new { f.Sha256, f.FileName }).ToListAsync(cancel)).Select(f => (f.Sha256, f.FileName)).ToHashSet();
                foreach (var (sha256, fileName, bytes) in some.Where(f => over.Contains((f.Sha256, f.FileName))))
                {
                    // First what is said of it: a file that is there still is deleted the next time.
                    db.Note(nameof(ArrivedFile), fileName, "deleted the kept file of", $"{bytes} bytes, SHA-256 {sha256}");
                    await db.SaveChangesAsync(cancel);
                    shelf.Delete(sha256, fileName);
                    cleared = (cleared.Files + 1, cleared.Bytes + bytes);
                }
            }
        }
        finally
        {
            _one.Release();
        }

        return cleared;
    }

    /// <summary>The files that somebody must look at (or that are done with), newest first; at most 200.</summary>
    public async Task<List<ArrivedFile>> ListAsync(bool done, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ArrivedFiles.AsNoTracking()
            .Where(f => done ? f.State == ArrivalState.Given || f.State == ArrivalState.SetAside : f.State != ArrivalState.Given && f.State != ArrivalState.SetAside)
            .OrderByDescending(f => f.ArrivedUtc).ThenByDescending(f => f.Id).Take(MostListed).ToListAsync(cancel);
    }

    /// <summary>A file that nobody has decided on yet, or null.</summary>
    public async Task<ArrivedFile?> FindOpenAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ArrivedFiles.AsNoTracking().SingleOrDefaultAsync(f => f.Id == id && f.State == ArrivalState.Waiting, cancel);
    }

    public async Task<byte[]?> PreviewAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ArrivedPreviews.Where(p => p.ArrivedFileId == id).Select(p => p.Png).FirstOrDefaultAsync(cancel);
    }

    /// <summary>Gives a file to a ticket that waits for its files; the ticket goes on waiting until a person says that it is complete.</summary>
    /// <param name="id">The row.</param>
    /// <param name="ticket">The ticket's number as a person types it.</param>
    /// <param name="colour">The ink; empty for what the file says.</param>
    /// <param name="acceptedBecause">Why it is right although something about it looks wrong; empty when nobody said so.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">There is no such ticket, it does not wait for files, or somebody else decided on the file meanwhile.</exception>
    /// <exception cref="OrderRefusedException">The ticket cannot take it.</exception>
    /// <exception cref="SeparationException">It is no separation.</exception>
    public async Task GiveAsync(int id, string ticket, string colour, string acceptedBecause, string by, CancellationToken cancel = default)
    {
        var number = TrackingNumber.Read(ticket);
        if (number.Kind != NumberKind.Ticket)
        {
            throw new PlateRoomException($"“{ticket}” is no ticket number{(number.Fault == NumberFault.Misread ? ": its check character does not fit, so it is mistyped" : "")}.");
        }

        await _one.WaitAsync(cancel);
        try
        {
            var file = await FindAsync(id, cancel);
            StillOpen(file);
            var read = await ReadAsync(file, null, cancel) with { AcceptedBecause = acceptedBecause };
            if (!string.IsNullOrWhiteSpace(colour) && colour.Trim() != read.Facts.Colour)
            {
                read = read with { Facts = read.Facts with { Colour = colour.Trim(), ColourFrom = ColourSource.Order } };
            }

            if (!await HasAsync(number.Number!, read.Sha256, read.Facts.Colour, cancel))
            {
                await entry.AddSeparationsAsync(number.Number!, [read], by, layOut: false, cancel: cancel);
            }

            await ChangeAsync(id, by, f => Given(f, number.Number!), cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Notes that an order was entered with this file.</summary>
    public Task UsedAsync(int id, string ticket, string by, CancellationToken cancel = default) => ChangeAsync(id, by, f => Given(f, ticket), cancel);

    /// <exception cref="PlateRoomException">No reason was given, or somebody else decided on the file meanwhile.</exception>
    public Task SetAsideAsync(int id, string reason, string by, CancellationToken cancel = default) =>
        string.IsNullOrWhiteSpace(reason)
            ? throw new PlateRoomException("Say why the file is set aside: somebody may look for it.")
            : ChangeAsync(
                id, by,
                f =>
                {
                    StillOpen(f);
                    (f.State, f.Sentence) = (ArrivalState.SetAside, $"Set aside by {by}: {reason.Trim()}");
                },
                cancel);

    /// <summary>Reads an arrived file from the shelf.</summary>
    /// <exception cref="SeparationException">It is no separation.</exception>
    /// <exception cref="PlateRoomException">There is no such file.</exception>
    public async Task<ReadSeparation> ReadAsync(int id, IProgress<double>? progress, CancellationToken cancel = default) =>
        await ReadAsync(await FindAsync(id, cancel), progress, cancel);

    private async Task ReadTakenAsync(CancellationToken cancel)
    {
        while (true)
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            var next = await db.ArrivedFiles.AsNoTracking().Where(f => f.State == ArrivalState.Taken).OrderBy(f => f.Id).FirstOrDefaultAsync(cancel);
            if (next is null)
            {
                return;
            }

            await DecideAsync(next, cancel);
            Changed?.Invoke();
        }
    }

    private async Task DecideAsync(ArrivedFile file, CancellationToken cancel)
    {
        ReadSeparation read;
        try
        {
            read = await ReadAsync(file, null, cancel);
        }
        catch (Exception e) when (e is SeparationException or IOException)
        {
            await ChangeAsync(file.Id, Acting, f => (f.State, f.Sentence) = (ArrivalState.Refused, e.Message), cancel);
            return;
        }

        await NoteAsync(file.Id, read, cancel);
        var name = ArrivalName.Of(file.FileName);
        var (given, sentence) = name switch
        {
            { Ticket: { } ticket } => await TryGiveAsync(ticket, read, cancel),
            { Mistyped: { } wrong } => (false, $"The name holds “{wrong}”, which is no ticket number: its check character does not fit. Give the file to its ticket."),
            _ => (false, "Its name holds no ticket number."),
        };
        await ChangeAsync(
            file.Id, Acting,
            f =>
            {
                if (given)
                {
                    Given(f, name.Ticket!);
                }
                else
                {
                    (f.State, f.Sentence, f.TicketNumber) = (ArrivalState.Waiting, sentence, name.Ticket ?? "");
                }
            },
            cancel);
    }

    private async Task<(bool Given, string Sentence)> TryGiveAsync(string ticket, ReadSeparation read, CancellationToken cancel)
    {
        // The server may have stopped between the ticket's change and this row's.
        if (await HasAsync(ticket, read.Sha256, read.Facts.Colour, cancel))
        {
            return (true, "");
        }

        try
        {
            // How many separations are to come is not known here: a person says when the ticket is complete.
            await entry.AddSeparationsAsync(ticket, [read], Acting, layOut: false, cancel: cancel);
            return (true, "");
        }
        catch (OrderRefusedException refused)
        {
            return (false, string.Join(" ", refused.Errors.Values));
        }
        catch (PlateRoomException refused)
        {
            return (false, refused.Message);
        }
    }

    private async Task<bool> HasAsync(string ticket, string sha256, string colour, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Separations.AnyAsync(s => s.Sha256 == sha256 && s.Colour == colour && db.Orders.Any(o => o.Id == s.TicketId && o.Number == ticket), cancel);
    }

    private Task<ReadSeparation> ReadAsync(ArrivedFile file, IProgress<double>? progress, CancellationToken cancel) => Task.Run(
        () =>
        {
            using var stream = File.OpenRead(shelf.PathOf(file.Sha256, file.FileName));
            var facts = SeparationReader.Read(stream, file.FileName, progress, cancel);
            var name = ArrivalName.Of(file.FileName);
            // A colour behind the ticket's number is meant as one, whatever it is called; process colours were found already.
            if (facts.ColourFrom != ColourSource.FileName && name is { Ticket: not null, Colour.Length: > 0 and <= ColourNames.Longest })
            {
                facts = facts with { Colour = name.Colour, ColourFrom = ColourSource.FileName };
            }

            return new ReadSeparation(facts, file.Sha256, file.FileBytes);
        },
        cancel);

    private static void StillOpen(ArrivedFile file)
    {
        if (file.State is ArrivalState.Given or ArrivalState.SetAside)
        {
            throw new PlateRoomException($"{file.FileName} is not waiting any more. {file.Sentence}");
        }
    }

    private static void Given(ArrivedFile file, string ticket) =>
        (file.State, file.TicketNumber, file.Sentence) = (ArrivalState.Given, ticket, $"On ticket {TrackingNumber.ForPeople(ticket)}.");

    private async Task<ArrivedFile> FindAsync(int id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ArrivedFiles.AsNoTracking().SingleOrDefaultAsync(f => f.Id == id, cancel) ?? throw new PlateRoomException("There is no such file in the list.");
    }

    /// <param name="again">The same content under the same name came once more: what was set aside waits again.</param>
    private async Task AddRowAsync(string sha256, string fileName, long bytes, bool again, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = Acting;
        var row = await db.ArrivedFiles.SingleOrDefaultAsync(f => f.Sha256 == sha256 && f.FileName == fileName, cancel);
        if (row is null)
        {
            db.ArrivedFiles.Add(new ArrivedFile { FileName = fileName, Sha256 = sha256, FileBytes = bytes, ArrivedUtc = clock.GetUtcNow().UtcDateTime, State = ArrivalState.Taken });
        }
        else if (again && row.State == ArrivalState.SetAside)
        {
            (row.State, row.ArrivedUtc) = (ArrivalState.Taken, clock.GetUtcNow().UtcDateTime);
        }

        await db.SaveChangesAsync(cancel);
    }

    private async Task NoteAsync(int id, ReadSeparation read, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = Acting;
        var file = await db.ArrivedFiles.SingleAsync(f => f.Id == id, cancel);
        var facts = read.Facts;
        file.Colour = facts.Colour;
        file.WidthUm = SeparationRules.Micrometres(facts.WidthMm);
        file.LengthUm = SeparationRules.Micrometres(facts.HeightMm);
        file.PixelsPerMm = facts.XPixelsPerMm;
        file.Coverage = facts.Image!.Coverage;
        if (!await db.ArrivedPreviews.AnyAsync(p => p.ArrivedFileId == id, cancel))
        {
            db.ArrivedPreviews.Add(new ArrivedPreview { ArrivedFileId = id, Png = facts.Image.PreviewPng.ToArray() });
        }

        await db.SaveChangesAsync(cancel);
    }

    private async Task ChangeAsync(int id, string by, Action<ArrivedFile> change, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        change(await db.ArrivedFiles.SingleAsync(f => f.Id == id, cancel));
        await db.SaveChangesAsync(cancel);
        Changed?.Invoke();
    }
}
