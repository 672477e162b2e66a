using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Service.Charts;

/// <summary>The climate of a bay as a chart: how it went, how it is expected to go, and what the cars in it wait for.</summary>
internal static class ClimateChart
{
    /// <summary>No more cars than can be read on a wall. Source (choice).</summary>
    private const int MostRows = 4;

    private static readonly (WindowStage Stage, Ink Ink)[] Drawn = [(WindowStage.KeepDry, Ink.KeepDry), (WindowStage.Recoat, Ink.Recoat), (WindowStage.LevelOff, Ink.LevelOff)];

    /// <param name="course">The bay's climate.</param>
    /// <param name="cars">The cars in it.</param>
    public static Chart Of(ClimateCourse course, IEnumerable<JobReport> cars)
    {
        (DateTimeOffset from, DateTimeOffset to) = (course.At - ClimateCourse.Reach, course.At + ClimateCourse.Reach);
        return new Chart(
            $"{course.Bay}: air, panels and dew point, the last and the next twelve hours",
            TextOf(course),
            from,
            course.At,
            to,
            [
                Line(Ink.Air, course, p => p.AirC, a => a.AirC),
                Line(Ink.DewPoint, course, p => p.DewPointC, a => a.DewPointC),
                Line(Ink.Panel, course, p => p.PanelC, a => a.PanelC),
            ],
            [Band(Ink.DewPointBand, course, a => a.DewPointC), Band(Ink.PanelBand, course, a => a.PanelC)],
            [.. cars.Select(c => Row(c, from, to)).Where(r => r.Spans.Count > 0).Take(MostRows)]);
    }

    private static Sentence TextOf(ClimateCourse course)
    {
        if (course.Ahead.IsEmpty)
        {
            return $"No air probe is heard: nothing is expected.";
        }

        CourseAhead worst = course.Ahead.MinBy(a => a.PanelC.Likely - a.DewPointC.Likely);
        double spreadK = worst.PanelC.Likely - worst.DewPointC.Likely;
        Sentence hours = worst.At == course.At ? (Sentence)$"now" : $"in {Math.Round((worst.At - course.At).TotalHours, 1):0.#} h";
        Sentence known = course.IsForecast ? (Sentence)$"by this bay's own days" : $"by what bays usually do";
        return $"Expected {known}: the coldest panel comes nearest to the dew point {hours}, likely {new Figure.Difference(spreadK, "0.0")} from it.";
    }

    private static ChartLine Line(Ink ink, ClimateCourse course, Func<CoursePoint, double?> past, Func<CourseAhead, CourseBand> ahead) =>
        new(ink, [.. course.Past.Select(p => (p.At, past(p))), .. course.Ahead.Select(a => (a.At, (double?)ahead(a).Likely))]);

    private static ChartBand Band(Ink ink, ClimateCourse course, Func<CourseAhead, CourseBand> ahead) =>
        new(ink, [.. course.Ahead.Select(a => (a.At, ahead(a).Low, ahead(a).High))]);

    /// <summary>Of each stage from the first coat that opens it to the last that closes it, as far as it is not over.</summary>
    private static ChartRow Row(JobReport car, DateTimeOffset left, DateTimeOffset right)
    {
        ImmutableArray<Window> windows = [.. car.Surfaces.SelectMany(s => s.Coats).Where(c => c.Coat.EndedAt is null).SelectMany(c => c.Windows)];
        return new ChartRow(
            car.Job.Car ?? car.Job.Id,
            [
                .. from drawn in Drawn
                   let open = windows.Where(w => w.Stage == drawn.Stage && w.State is not (WindowState.Done or WindowState.Missed) && w.OpensAt.Likely < right).ToArray()
                   where open.Length > 0
                   let opens = open.Min(w => w.OpensAt.Likely)!.Value
                   let closes = open.Max(w => w.ClosesAt?.Latest ?? right)
                   where closes > left
                   select (drawn.Ink, opens > left ? opens : left, closes < right ? closes : right),
            ]);
    }
}
