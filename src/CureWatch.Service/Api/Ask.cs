namespace CureWatch.Service.Api;

/// <summary>Says in the description of an endpoint what may be asked of it.</summary>
/// <param name="Name">The parameter in the address.</param>
/// <param name="Kind">What it has to be.</param>
/// <param name="What">What it does.</param>
internal sealed record Ask(string Name, string Kind, string What)
{
    /// <summary>An instant.</summary>
    public const string Instant = "date-time";

    /// <summary>One of some names.</summary>
    public const string Word = "word";

    /// <summary>A whole number.</summary>
    public const string Whole = "int64";
}
