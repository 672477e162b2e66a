using CureWatch.Panels;
using CureWatch.Psychrometrics;

namespace CureWatch.Curing;

/// <summary>How a segment of climate runs, in the terms that laws driven by water activity share.</summary>
/// <param name="Start">The climate at its start.</param>
/// <param name="Early">The climate at <see cref="GaussRule.Early"/>.</param>
/// <param name="Middle">The climate half-way.</param>
/// <param name="Late">The climate at <see cref="GaussRule.Late"/>.</param>
/// <param name="End">The climate at its end.</param>
/// <param name="ActivityReach">An upper bound [1] of how far the logarithm of the water activity can move on the way.</param>
public sealed record SegmentCourse(
    CoursePoint Start, CoursePoint Early, CoursePoint Middle, CoursePoint Late, CoursePoint End, double ActivityReach)
{
    /// <summary>The course of a segment.</summary>
    /// <param name="segment">The segment.</param>
    /// <returns>The course.</returns>
    public static SegmentCourse Of(in ClimateSegment segment)
    {
        (Exposure start, Exposure end) = (segment.AtStart, segment.AtEnd);
        double slope = SaturationPressure.WaterSlope(Math.Min(start.PanelKelvins, end.PanelKelvins));
        double reach = (Math.Abs(end.VapourPressurePa - start.VapourPressurePa) / Math.Min(start.VapourPressurePa, end.VapourPressurePa))
            + (slope * Math.Abs(end.PanelKelvins - start.PanelKelvins));
        return new SegmentCourse(
            CoursePoint.At(start), On(GaussRule.Early), On(GaussRule.Middle), On(GaussRule.Late), CoursePoint.At(end), reach);

        CoursePoint On(double share) => CoursePoint.At(start.Towards(end, share));
    }
}

/// <summary>A climate on the way.</summary>
/// <param name="Exposure">The climate.</param>
/// <param name="LnActivity">Logarithm of the water activity at the panel [1].</param>
public readonly record struct CoursePoint(Exposure Exposure, double LnActivity)
{
    /// <summary>The point of a climate.</summary>
    /// <param name="exposure">The climate; its vapour pressure above 0.</param>
    /// <returns>The point.</returns>
    public static CoursePoint At(Exposure exposure) =>
        new(exposure, Math.Log(exposure.VapourPressurePa) - SaturationPressure.LnOverWater(exposure.PanelKelvins));
}
