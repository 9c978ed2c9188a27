using System.Security.Cryptography;
using System.Text;
using PlateTickets.Process;

namespace PlateTickets.Web.Accounts;

/// <summary>
/// The code in the log with which the first manager is made: whoever reads the server's log keeps the room. It lives as long as the
/// program runs and nobody has an account.
/// </summary>
internal sealed class SetUpCode
{
    private const int MostTries = 10;
    private readonly Lock _lock = new();
    private string? _code;
    private int _tries;

    /// <summary>Makes the code for the log.</summary>
    public string Make()
    {
        lock (_lock)
        {
            _tries = 0;
            return _code = string.Join('-', RandomNumberGenerator.GetString("ABCDEFGHJKMNPQRSTVWX23456789", 12).Chunk(4).Select(c => new string(c)));
        }
    }

    /// <exception cref="PlateRoomException">The code is wrong, or was wrong too often.</exception>
    public void Check(string typed)
    {
        lock (_lock)
        {
            if (_code is null)
            {
                throw new PlateRoomException("This room has its first manager already. Sign in, or ask that person for an account.");
            }

            if (++_tries > MostTries)
            {
                throw new PlateRoomException("Too many wrong codes. Restart the program: its log then shows a new code.");
            }

            var clean = new string([.. typed.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit)]);
            if (!CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(clean), Encoding.UTF8.GetBytes(_code.Replace("-", "", StringComparison.Ordinal))))
            {
                throw new PlateRoomException("This is not the set-up code. It stands in the program's log, in the line that begins with “Nobody has an account yet”.");
            }
        }
    }

    /// <summary>The first manager is made; the code is worth nothing any more.</summary>
    public void Forget()
    {
        lock (_lock)
        {
            _code = null;
        }
    }
}
