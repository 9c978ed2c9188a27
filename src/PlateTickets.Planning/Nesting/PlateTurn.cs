namespace PlateTickets.Planning.Nesting;

/// <summary>In which direction a plate may lie.</summary>
public enum PlateTurn
{
    /// <summary>Along or across, as all plates of its set.</summary>
    WithSet,

    /// <summary>Along or across, whatever its set does.</summary>
    Free,

    /// <summary>Only along: its size around the cylinder along the sheet's length.</summary>
    Along,

    /// <summary>Only across, turned by 90 degrees.</summary>
    Across,
}
