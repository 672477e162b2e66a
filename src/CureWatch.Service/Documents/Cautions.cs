namespace CureWatch.Service.Documents;

/// <summary>What is shown beside any suggestion to do the dangerous thing it names.</summary>
internal static class Cautions
{
    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string SolventVapour = string.Join(
        Environment.NewLine,
        "caution: solvent vapour catches fire and gathers near the floor. While you apply: no flames, no sparks, no hot lamps, no",
        "running heaters, and air the bay. The safety data sheet and the local fire and building codes rule over anything said here.");

    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string HeatAndShutDoors = string.Join(
        Environment.NewLine,
        "caution: no heater or lamp runs unattended, none near solvent, fuel or a traction battery; unvented burners give carbon monoxide",
        "and moisture; with the doors shut, vapour gathers. The safety data sheet and the local fire and building codes rule.");
}
