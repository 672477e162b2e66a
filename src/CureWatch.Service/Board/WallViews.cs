using System.Globalization;
using CureWatch.Bays;
using CureWatch.Service.Api;
using CureWatch.Service.Charts;

namespace CureWatch.Service.Board;

/// <summary>Puts the bays on the wall.</summary>
internal sealed class WallViews(Look look, BoardView board)
{
    /// <summary>More than that nobody takes in at a glance; the board has all of them. Source (choice).</summary>
    private const int MostWarnings = 3;

    private readonly ShopClock _clock = new(look.Shop.Plan.Hours.Zone, look.At);

    /// <param name="look">The shop now.</param>
    /// <param name="board">The same as the board shows it.</param>
    /// <param name="bay">The one bay the screen hangs in; null for all.</param>
    public static WallView Of(Look look, BoardView board, string? bay)
    {
        var views = new WallViews(look, board);
        return new WallView(board.Shop, board.Zone, board.Now, board.Troubles, [.. board.Bays.Where(b => bay is null || b.Bay == bay).Select(views.Of)]);
    }

    private WallBayView Of(BayView bay)
    {
        var course = ClimateCourse.Of(look.Shop, bay.Bay);
        Chart chart = ClimateChart.Of(course, look.Here.Where(j => look.BaysOf(j).Contains(bay.Bay)).Select(look.ReportOf));
        HashSet<string> cars = [.. bay.Cars.Select(c => c.Job)];
        int[] numbers = [.. look.OpenWarnings.Where(w => w.Warning.Subject.Bay == bay.Bay || (w.Warning.Subject.Job is { } job && cars.Contains(job))).Select(w => w.Number)];
        WarningView[] warnings = [.. board.Warnings.Where(w => numbers.Contains(w.Number))];
        return new WallBayView(
            bay,
            chart.Text,
            ChartSvg.Of(chart, _clock.Zone, $"course-{bay.Bay}"),
            [.. course.Past.Where((_, i) => i % StepsPerHour == 0).Select(Of), .. course.Ahead.Where(a => a.At > course.At).Select(Of)],
            warnings.Take(MostWarnings).ToArray(),
            Math.Max(0, warnings.Length - MostWarnings));
    }

    private static int StepsPerHour => (int)(TimeSpan.FromHours(1) / ClimateCourse.Step);

    private HourView Of(CoursePoint point) => new(_clock.Of(point.At), Degrees(point.AirC), Degrees(point.DewPointC), Degrees(point.PanelC));

    private HourView Of(CourseAhead ahead) => new(_clock.Of(ahead.At), Degrees(ahead.AirC), Degrees(ahead.DewPointC), Degrees(ahead.PanelC));

    private static string Degrees(double? celsius) => celsius?.ToString("0.0", CultureInfo.InvariantCulture) ?? "not heard";

    private static string Degrees(CourseBand band) => string.Create(CultureInfo.InvariantCulture, $"{band.Likely:0.0} ({band.Low:0.0} to {band.High:0.0})");
}
