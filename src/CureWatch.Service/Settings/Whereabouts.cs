namespace CureWatch.Service.Settings;

/// <summary>Where a car can be moved besides the shop's bays.</summary>
internal static class Whereabouts
{
    public const string Store = "store";
    public const string Outside = "outside";
}
