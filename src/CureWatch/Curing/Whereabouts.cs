namespace CureWatch.Curing;

/// <summary>Where a car can be moved besides the shop's bays.</summary>
public static class Whereabouts
{
    /// <summary>A store of the shop's, in which nobody measures.</summary>
    public const string Store = "store";

    /// <summary>Outdoors.</summary>
    public const string Outside = "outside";
}
