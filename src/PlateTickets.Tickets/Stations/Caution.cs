namespace PlateTickets.Tickets.Stations;

/// <summary>A caution in words with the ISO 7010 signs that belong to it. No sign is drawn: the drawings are ISO's.</summary>
public sealed record Caution(string Text, IReadOnlyList<SafetySign> Signs)
{
    /// <summary>The caution with the codes behind it, for paper.</summary>
    public string Line => Signs.Count == 0 ? Text : $"{Text} ({string.Join(", ", Signs.Select(s => s.Code))})";
}

/// <summary>An ISO 7010 sign by its number and what it means in our words.</summary>
/// <param name="Code">W warning, M mandatory, P prohibition.</param>
/// <param name="Meaning">W027 as in the standard's list; the others from memory.</param>
public sealed record SafetySign(string Code, string Meaning)
{
    public static readonly SafetySign Laser = new("W004", "Warning: laser beam");
    public static readonly SafetySign Slippery = new("W011", "Warning: slippery surface");
    public static readonly SafetySign Hot = new("W017", "Warning: hot surface");
    public static readonly SafetySign Flammable = new("W021", "Warning: flammable material");
    public static readonly SafetySign Crushing = new("W024", "Warning: crushing of hands");
    public static readonly SafetySign OpticalRadiation = new("W027", "Warning: optical radiation");
    public static readonly SafetySign EyeProtection = new("M004", "Mandatory: wear eye protection");
    public static readonly SafetySign Gloves = new("M009", "Mandatory: wear protective gloves");
    public static readonly SafetySign Respirator = new("M017", "Mandatory: wear respiratory protection");
    public static readonly SafetySign NoFlame = new("P003", "Prohibition: no open flame");
}
