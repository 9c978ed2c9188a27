using System.ComponentModel.DataAnnotations;

namespace PlateTickets.Web.Startup;

/// <summary>Which database keeps the room.</summary>
public enum DatabaseKind
{
    /// <summary>A file in the data folder, for one node.</summary>
    Sqlite,

    /// <summary>A server, for one node or several.</summary>
    PostgreSql,
}

/// <summary>The settings of the database: section "Database".</summary>
public sealed class DatabaseOptions : IValidatableObject
{
    public const string Section = "Database";

    [EnumDataType(typeof(DatabaseKind))]
    public DatabaseKind Provider { get; set; } = DatabaseKind.Sqlite;

    /// <summary>Of PostgreSQL, such as "Host=db;Database=plates;Username=plates"; the password may come from the environment (Database__ConnectionString) or a password file.</summary>
    public string ConnectionString { get; set; } = "";

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Provider == DatabaseKind.PostgreSql && string.IsNullOrWhiteSpace(ConnectionString))
        {
            yield return new ValidationResult("PostgreSQL needs Database:ConnectionString, such as “Host=db;Database=plates;Username=plates”.", [nameof(ConnectionString)]);
        }
    }
}
