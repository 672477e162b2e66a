using System.Globalization;
using System.Xml.Linq;
using CureWatch.Service.Tongues;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace CureWatch.Service.Charts;

/// <summary>Draws a chart as a picture to be put into a page.</summary>
internal sealed class ChartSvg
{
    private const double Width = 720, Height = 300, RowHeight = 26;
    private const int HoursPerLabel = 3;
    private const double DegreesPerLabel = 5, FahrenheitPerLabel = 10, LeastSteps = 2;

    /// <summary>What is drawn over what is there anyway is so much wider.</summary>
    private const double Thin = 1, Thick = 2;

    private readonly Chart _chart;
    private readonly TimeZoneInfo _zone;
    private readonly Tongue _tongue;
    private readonly double _rowsShare;

    /// <summary>The last hour under which something is written, from which is counted.</summary>
    private readonly DateTimeOffset _labelled;

    private ChartSvg(Chart chart, TimeZoneInfo zone, Tongue tongue)
    {
        (_chart, _zone, _tongue, _rowsShare) = (chart, zone, tongue, chart.Rows.Count * RowHeight / Height);
        TimeSpan today = TimeZoneInfo.ConvertTime(chart.Now, zone).TimeOfDay;
        _labelled = chart.Now - TimeSpan.FromHours(today.TotalHours % HoursPerLabel);
    }

    /// <summary>Draws it.</summary>
    /// <param name="chart">What is drawn.</param>
    /// <param name="zone">The shop's time zone, for the hours under it.</param>
    /// <param name="tongue">How whoever looks at it is spoken to.</param>
    /// <param name="id">Tells it from the others on the page.</param>
    public static string Of(Chart chart, TimeZoneInfo zone, Tongue tongue, string id)
    {
        string drawn = SvgExporter.ExportToString(new ChartSvg(chart, zone, tongue).Model(), Width, Height, isDocument: false);
        return SvgForPage.Of(XElement.Parse(drawn[drawn.IndexOf("<svg", StringComparison.Ordinal)..]), tongue[chart.Title], tongue[chart.Text], id);
    }

    private PlotModel Model()
    {
        var model = new PlotModel { Background = OxyColors.Undefined, PlotAreaBorderThickness = new OxyThickness(0), PlotMargins = new OxyThickness(36, 12, 22, 24), Padding = new OxyThickness(0) };
        model.Axes.Add(Hours());
        model.Axes.Add(Degrees());
        model.Axes.Add(new LinearAxis { Key = "rows", Position = AxisPosition.Right, StartPosition = 0, EndPosition = _rowsShare, Minimum = 0, Maximum = Math.Max(1, _chart.Rows.Count), IsAxisVisible = false });
        foreach (ChartBand band in _chart.Bands)
        {
            var area = new AreaSeries { Fill = SvgForPage.Marked(band.Ink), Color = OxyColors.Undefined, StrokeThickness = 0 };
            area.Points.AddRange(band.Points.Select(p => new DataPoint(X(p.At), _tongue.DegreesOf(p.Low))));
            area.Points2.AddRange(band.Points.Select(p => new DataPoint(X(p.At), _tongue.DegreesOf(p.High))));
            model.Series.Add(area);
        }

        foreach (ChartLine line in _chart.Lines)
        {
            var drawn = new LineSeries { Color = SvgForPage.Marked(line.Ink), StrokeThickness = Thick };
            drawn.Points.AddRange(line.Points.Select(p => new DataPoint(X(p.At), p.Value is { } value ? _tongue.DegreesOf(value) : double.NaN)));
            model.Series.Add(drawn);
        }

        foreach ((ChartRow row, int index) in _chart.Rows.Reverse().Select((r, i) => (r, i)))
        {
            foreach ((Ink ink, DateTimeOffset from, DateTimeOffset to) in row.Spans)
            {
                model.Annotations.Add(new RectangleAnnotation
                {
                    YAxisKey = "rows",
                    Fill = SvgForPage.Marked(ink),
                    MinimumX = X(from),
                    MaximumX = X(to),
                    MinimumY = index + 0.15,
                    MaximumY = index + 0.85,
                });
            }

            model.Annotations.Add(new TextAnnotation
            {
                YAxisKey = "rows",
                Text = row.Name,
                TextPosition = new DataPoint(X(_chart.From) + 0.1, index + 0.5),
                TextHorizontalAlignment = HorizontalAlignment.Left,
                TextVerticalAlignment = VerticalAlignment.Middle,
                StrokeThickness = 0,
            });
        }

        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Vertical, X = X(_chart.Now), Color = SvgForPage.Marked(Ink.Now), LineStyle = LineStyle.Solid, StrokeThickness = Thin });
        return model;
    }

    private LinearAxis Hours() => new()
    {
        Position = AxisPosition.Bottom,
        Minimum = X(_chart.From),
        Maximum = X(_chart.To),
        MajorStep = HoursPerLabel,
        MinorTickSize = 0,
        MajorTickSize = 0,
        LabelFormatter = x => TimeZoneInfo.ConvertTime(_labelled + TimeSpan.FromHours(x), _zone).ToString("HH:mm", CultureInfo.InvariantCulture),
    };

    private LinearAxis Degrees()
    {
        double[] values = [.. _chart.Lines.SelectMany(l => l.Points).Select(p => p.Value).OfType<double>(), .. _chart.Bands.SelectMany(b => b.Points).SelectMany(p => new[] { p.Low, p.High })];
        (double low, double high) = values.Length == 0 ? (0, 0) : (_tongue.DegreesOf(values.Min()), _tongue.DegreesOf(values.Max()));
        double step = _tongue.IsFahrenheit ? FahrenheitPerLabel : DegreesPerLabel;
        double from = step * Math.Floor(low / step);
        double to = Math.Max(from + LeastSteps * step, step * Math.Ceiling(high / step));
        return new LinearAxis
        {
            Position = AxisPosition.Left,
            StartPosition = _rowsShare,
            EndPosition = 1,
            Minimum = from,
            Maximum = to,
            MajorStep = step,
            MinorTickSize = 0,
            MajorTickSize = 0,
            MajorGridlineStyle = LineStyle.Solid,
            MajorGridlineColor = SvgForPage.Marked(Ink.Grid),
            LabelFormatter = degrees => string.Create(CultureInfo.InvariantCulture, $"{degrees:0}°"),
        };
    }

    private double X(DateTimeOffset at) => (at - _labelled).TotalHours;
}
