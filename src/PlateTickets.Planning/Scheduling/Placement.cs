namespace PlateTickets.Planning.Scheduling;

/// <summary>Where a stage could go on a machine, in UTC ticks. A start of -1 says that the calendar ends before.</summary>
internal readonly record struct Placement(long Start, long Finish)
{
    public static readonly Placement None = new(-1, -1);

    public bool Fits => Start >= 0;
}

/// <summary>A stage option in ticks, with what the machine must know of the sheet.</summary>
internal readonly record struct Work(long Load, long Run, long Unload, long EntrySpacing, int RecipeId)
{
    public static Work Of(StageOption option, int recipeId) =>
        new(option.Load.Ticks, option.Run.Ticks, option.Unload.Ticks, option.EntrySpacing.Ticks, recipeId);
}
