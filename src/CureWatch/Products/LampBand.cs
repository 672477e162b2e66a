using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>What a sheet allows under a lamp.</summary>
/// <param name="PanelMinC">Coldest panel that earns lamp credit [°C].</param>
/// <param name="PanelMaxC">Hottest panel the band allows [°C]; never above the sheet's own heat limit.</param>
/// <param name="ReferenceHoursPerMinute">Reference hours earned in a minute inside the band [h/min].</param>
/// <param name="NotBefore">How long after the wipe the lamp may first be used.</param>
/// <param name="MaxMinutes">Longest time under the lamp [min].</param>
/// <param name="Stages">The stages the lamp helps.</param>
public sealed record LampBand(
    double PanelMinC, double PanelMaxC, double ReferenceHoursPerMinute, TimeSpan NotBefore, double MaxMinutes, ImmutableArray<Stage> Stages);
