using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Charts;

namespace CureWatch.Service.Board;

/// <summary>Puts the bays on the wall.</summary>
internal sealed class WallViews(Look look, BoardView board)
{
    /// <summary>More than that nobody takes in at a glance; the board has all of them. Source (choice).</summary>
    private const int MostWarnings = 3;

    /// <summary>How many of them are told with what to do about them: one person does one thing after the other. Source (choice).</summary>
    private const int MostInFull = 1;

    /// <summary>More cars than that leave no room for their times. Source (choice).</summary>
    private const int MostCars = 3;

    private readonly ShopClock _clock = new(look.Shop.Plan.Hours.Zone, look.At);
    private readonly DayPart _part = DayParts.At(look.Shop.Plan.Hours, look.At);

    /// <param name="look">The shop now.</param>
    /// <param name="board">The same as the board shows it.</param>
    /// <param name="bay">The one bay the screen hangs in; null for all.</param>
    public static WallView Of(Look look, BoardView board, string? bay)
    {
        var views = new WallViews(look, board);
        return new WallView(
            board.Shop,
            board.Zone,
            board.Now,
            views._part,
            views._clock.Of(look.Shop.Plan.Hours.DayAt(look.At)?.LocksUp),
            board.Troubles,
            [.. board.Bays.Where(b => bay is null || b.Bay == bay).Select(views.Of)])
        {
            Elsewhere = views.Shown([.. board.Elsewhere.Where(c => bay is null || views.CameFrom(look.Shop.Find(c.Job)!, bay))]),
        };
    }

    /// <summary>Whether a bay is the last a car, or a part of it, was in: where each bay has a screen of its own, no other would say that the car must not be moved.</summary>
    private bool CameFrom(JobState job, string bay) => job.Stories.Any(s => Stay.Of(look.Shop, job.Job, s).LastOrDefault(stay => stay.Bay is not null)?.Bay == bay);

    /// <summary>The most urgent first; at lock-up none that has to stay is left out because the wall was full.</summary>
    private (IReadOnlyList<WallCarView> Cars, int More) Shown(IReadOnlyList<CarView> all)
    {
        var cars = new WallCars(look, _clock, _part);
        WallCarView[] inOrder =
        [
            .. all.Select(c => cars.Of(look.Shop.Find(c.Job)!, c))
                .OrderByDescending(c => c.Stays?.HasToStay == true).ThenByDescending(c => c.Tone).ThenBy(c => c.Until?.At ?? DateTimeOffset.MaxValue),
        ];
        int shown = Math.Max(MostCars, inOrder.Count(c => c.Stays?.HasToStay == true));
        return ([.. inOrder.Take(shown)], Math.Max(0, inOrder.Length - shown));
    }

    private WallBayView Of(BayView bay)
    {
        var course = ClimateCourse.Of(look.Shop, bay.Bay);
        Chart chart = ClimateChart.Of(course, look.Here.Where(j => look.BaysOf(j).Contains(bay.Bay)).Select(look.ReportOf));
        HashSet<string> jobs = [.. bay.Cars.Select(c => c.Job)];
        int[] numbers = [.. look.OpenWarnings.Where(w => w.Warning.Subject.Bay == bay.Bay || (w.Warning.Subject.Job is { } job && jobs.Contains(job))).Select(w => w.Number)];
        WarningView[] warnings = [.. board.Warnings.Where(w => numbers.Contains(w.Number))];
        (IReadOnlyList<WallCarView> cars, int moreCars) = Shown(bay.Cars);
        var once = new SaidOnce();
        NightView? night = _part is DayPart.LockUp or DayPart.Morning ? NightViews.Of(look.Shop, bay.Bay) : null;
        night = night is null ? null : night with { Cautions = once.Of(night.Cautions) };
        return new WallBayView(
            bay.Bay,
            bay.Airs[0],
            chart,
            _clock.Zone,
            [.. course.Past.Where((_, i) => i % StepsPerHour == 0).Select(Of), .. course.Ahead.Where(a => a.At > course.At).Select(Of)],
            [.. warnings.Take(MostInFull).Select(w => w with { Caution = Once(once, w.Caution) })],
            [.. warnings.Take(MostWarnings).Skip(MostInFull)],
            Math.Max(0, warnings.Length - MostWarnings),
            [.. cars.Select(c => c with { Caution = Once(once, c.Caution) })],
            moreCars,
            night);
    }

    private static string? Once(SaidOnce once, string? caution) => caution is null ? null : once.Of([caution]).FirstOrDefault();

    private static int StepsPerHour => (int)(TimeSpan.FromHours(1) / ClimateCourse.Step);

    private HourView Of(CoursePoint point) => new(_clock.Of(point.At), Degrees(point.AirC), Degrees(point.DewPointC), Degrees(point.PanelC));

    private HourView Of(CourseAhead ahead) => new(_clock.Of(ahead.At), Degrees(ahead.AirC), Degrees(ahead.DewPointC), Degrees(ahead.PanelC));

    private static DegreesView? Degrees(double? celsius) => celsius is { } known ? new DegreesView(known, null) : null;

    private static DegreesView Degrees(CourseBand band) => new(band.Likely, (band.Low, band.High));
}
