using System.Text.Json;
using CureWatch.Reports;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Api;

/// <summary>How a bay's climate goes, as JSON. Writes into an object that is open.</summary>
internal static class CourseJson
{
    public static void Write(Utf8JsonWriter json, ClimateCourse course)
    {
        json.WriteString("bay", course.Bay);
        json.WriteInstant("at", course.At);
        json.WriteBoolean("isForecast", course.IsForecast);
        json.WriteArray("past", course.Past, point =>
        {
            json.WriteInstant("at", point.At);
            json.WriteRounded("airC", point.AirC);
            json.WriteRounded("dewPointC", point.DewPointC);
            json.WriteRounded("panelC", point.PanelC);
        });
        json.WriteArray("ahead", course.Ahead, ahead =>
        {
            json.WriteInstant("at", ahead.At);
            Write(json, "airC", ahead.AirC);
            Write(json, "dewPointC", ahead.DewPointC);
            Write(json, "panelC", ahead.PanelC);
        });
    }

    private static void Write(Utf8JsonWriter json, string name, CourseBand band)
    {
        json.WriteStartObject(name);
        json.WriteRounded("low", band.Low);
        json.WriteRounded("likely", band.Likely);
        json.WriteRounded("high", band.High);
        json.WriteEndObject();
    }
}
