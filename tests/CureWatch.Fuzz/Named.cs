using CureWatch.Fuzz.Targets;

namespace CureWatch.Fuzz;

/// <summary>Targets by name.</summary>
internal static class Named
{
    public static FuzzTarget? Find(string name) => FuzzTarget.All.FirstOrDefault(t => t.Name == name);
}
