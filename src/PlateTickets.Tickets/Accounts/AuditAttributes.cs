namespace PlateTickets.Tickets.Accounts;

/// <summary>The trail says that this value changed, but never what it was or became.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class SecretAttribute : Attribute;

/// <summary>The trail does not keep this value: it follows from others, or from a record of its own.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class UnauditedAttribute : Attribute;
