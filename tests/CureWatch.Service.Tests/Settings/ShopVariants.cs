namespace CureWatch.Service.Tests.Settings;

/// <summary>A shop file that uses every key, and ways to break it: place, new value, where the fault is named.</summary>
internal static class ShopVariants
{
    public const string Whole = """
        {
          "shop": "test-works", "timeZone": "Europe/Dublin", "finishing": "01:15:00",
          "openHours": {
            "monday": [{ "from": "08:00", "to": "12:00" }, { "from": "13:00", "to": "18:00" }],
            "saturday": { "from": "09:30", "to": "24:00" },
            "sunday": []
          },
          "work": { "panelWipeValid": "00:20:00", "wipeDries": "00:05:00", "dripsFor": "01:00:00", "apply": "00:02:00", "level": "00:01:30", "changeOver": "00:00:00" },
          "bays": [
            { "bay": "bay-1", "pressureHpa": 995.5, "airspace": "hall", "equipment": ["fixed-heating", "lamp"], "probes": [
              { "probe": "air", "measures": "air", "topic": "sensors/1/air",
                "fields": { "temperature": "/main/t", "humidity": "/main/h", "time": "/ts", "sequence": "/n" },
                "unit": "F", "offset": { "temperatureK": -0.2, "humidityPct": 1 },
                "accuracy": { "temperatureK": 0.3, "humidityPct": 2 }, "every": "00:00:30",
                "on": { "place": "cabin" } },
              { "probe": "bonnet", "measures": "panel", "on": { "material": "aluminium", "place": "outside" },
                "calibrations": [
                  { "from": "2026-07-01", "temperatureK": 0.4, "humidityPct": 0, "note": "in an ice bath" },
                  { "from": "2026-11-12T09:30:00Z" }
                ] },
              { "probe": "yard", "measures": "outdoor" }
            ]},
            { "bay": "bay-2" }
          ]
        }
        """;

    /// <summary>Only what is required.</summary>
    public const string Least = """{"shop":"s","timeZone":"UTC","bays":[{"bay":"b","probes":[{"probe":"p","measures":"air"}]}]}""";

    /// <summary>Refused by the schema and by the reader.</summary>
    public static TheoryData<string, string?, string> ForBoth { get; } = new()
    {
        { "/shop", null, "/shop" },
        { "/shop", "\"status\"", "/shop" },
        { "/timeZone", null, "/timeZone" },
        { "/timeZone", "1", "/timeZone" },
        { "/timeZone", "\"\"", "/timeZone" },
        { "/town", "\"x\"", "/town" },
        { "/finishing", "\"75 min\"", "/finishing" },
        { "/finishing", "4500", "/finishing" },
        { "/openHours/freeday", "[]", "/openHours/freeday" },
        { "/work/panelWipeValid", "45", "/work/panelWipeValid" },
        { "/work/dripsFor", "\"an hour\"", "/work/dripsFor" },
        { "/work/polish", "\"00:10:00\"", "/work/polish" },
        { "/openHours/monday/0/from", "\"8:00\"", "/openHours/monday/0/from" },
        { "/openHours/monday/0/from", "\"24:01\"", "/openHours/monday/0/from" },
        { "/openHours/monday/0/to", null, "/openHours/monday/0/to" },
        { "/openHours/monday", "\"closed\"", "/openHours/monday" },
        { "/openHours/saturday/until", "\"18:00\"", "/openHours/saturday/until" },
        { "/bays", "[]", "/bays" },
        { "/bays", null, "/bays" },
        { "/bays/0/bay", "\"jobs\"", "/bays/0/bay" },
        { "/bays/0/bay", "\"store\"", "/bays/0/bay" },
        { "/bays/0/bay", "\"outside\"", "/bays/0/bay" },
        { "/bays/0/pressureHpa", "101325", "/bays/0/pressureHpa" },
        { "/bays/0/airspace", "\"The Hall\"", "/bays/0/airspace" },
        { "/bays/0/equipment/-", "\"fan\"", "/bays/0/equipment/2" },
        { "/bays/0/equipment/-", "\"lamp\"", "/bays/0/equipment/2" },
        { "/bays/0/colour", "1", "/bays/0/colour" },
        { "/bays/0/probes", "{}", "/bays/0/probes" },
        { "/bays/0/probes/0/probe", null, "/bays/0/probes/0/probe" },
        { "/bays/0/probes/0/measures", "\"wind\"", "/bays/0/probes/0/measures" },
        { "/bays/0/probes/0/measures", null, "/bays/0/probes/0/measures" },
        { "/bays/0/probes/2/unit", "\"F\"", "/bays/0/probes/2/unit" },
        { "/bays/0/probes/0/topic", "\"sensors/+/air\"", "/bays/0/probes/0/topic" },
        { "/bays/0/probes/0/topic", "\"\"", "/bays/0/probes/0/topic" },
        { "/bays/0/probes/0/fields/temperature", "\"main.t\"", "/bays/0/probes/0/fields/temperature" },
        { "/bays/0/probes/0/fields/temperature", "\"/a~2b\"", "/bays/0/probes/0/fields/temperature" },
        { "/bays/0/probes/0/fields/temperature", null, "/bays/0/probes/0/fields/temperature" },
        { "/bays/0/probes/0/fields/humidity", null, "/bays/0/probes/0/fields/humidity" },
        { "/bays/0/probes/0/fields/sequence", "7", "/bays/0/probes/0/fields/sequence" },
        { "/bays/0/probes/0/fields/pressure", "\"/p\"", "/bays/0/probes/0/fields/pressure" },
        { "/bays/0/probes/0/unit", "\"K\"", "/bays/0/probes/0/unit" },
        { "/bays/0/probes/0/offset/temperatureK", "21", "/bays/0/probes/0/offset/temperatureK" },
        { "/bays/0/probes/0/offset/temperatureC", "1", "/bays/0/probes/0/offset/temperatureC" },
        { "/bays/0/probes/1/calibrations", "{}", "/bays/0/probes/1/calibrations" },
        { "/bays/0/probes/1/calibrations/0/from", null, "/bays/0/probes/1/calibrations/0/from" },
        { "/bays/0/probes/1/calibrations/0/from", "\"1 July\"", "/bays/0/probes/1/calibrations/0/from" },
        { "/bays/0/probes/1/calibrations/0/temperatureK", "-20.1", "/bays/0/probes/1/calibrations/0/temperatureK" },
        { "/bays/0/probes/1/calibrations/0/humidityPct", "\"2\"", "/bays/0/probes/1/calibrations/0/humidityPct" },
        { "/bays/0/probes/1/calibrations/0/note", "\"\"", "/bays/0/probes/1/calibrations/0/note" },
        { "/bays/0/probes/1/calibrations/0/by", "\"x\"", "/bays/0/probes/1/calibrations/0/by" },
        { "/bays/0/probes/0/accuracy/temperatureK", "0", "/bays/0/probes/0/accuracy/temperatureK" },
        { "/bays/0/probes/0/accuracy/humidityPct", "-2", "/bays/0/probes/0/accuracy/humidityPct" },
        { "/bays/0/probes/0/every", "\"1 min\"", "/bays/0/probes/0/every" },
        { "/bays/0/probes/0/every", "60", "/bays/0/probes/0/every" },
        { "/bays/0/probes/0/on/place", "\"roof\"", "/bays/0/probes/0/on/place" },
        { "/bays/0/probes/0/on/material", "\"steel\"", "/bays/0/probes/0/on/material" },
        { "/bays/0/probes/1/on/material", "\"iron\"", "/bays/0/probes/1/on/material" },
        { "/bays/0/probes/1/on/side", "\"left\"", "/bays/0/probes/1/on/side" },
        { "/bays/0/probes/1/serial", "\"1\"", "/bays/0/probes/1/serial" },
    };

    /// <summary>Rules across places and across the machine, which only the reader can check.</summary>
    public static TheoryData<string, string?, string> ForTheReader { get; } = new()
    {
        { "/timeZone", "\"Europe/Nowhere\"", "/timeZone" },
        { "/timeZone", "\"../../etc/passwd\"", "/timeZone" },
        { "/finishing", "\"8.00:00:00\"", "/finishing" },
        { "/work/panelWipeValid", "\"00:00:00\"", "/work/panelWipeValid" },
        { "/work/wipeDries", "\"00:20:00\"", "/work/wipeDries" },
        { "/work/apply", "\"00:00:00\"", "/work/apply" },
        { "/work/level", "\"13:00:00\"", "/work/level" },
        { "/openHours", """{"sunday":[]}""", "/openHours" },
        { "/openHours/saturday/to", "\"09:30\"", "/openHours/saturday/to" },
        { "/openHours/saturday/to", "\"06:00\"", "/openHours/saturday/to" },
        { "/openHours/monday/1/from", "\"12:00\"", "/openHours/monday/1/from" },
        { "/openHours/monday/1/from", "\"07:00\"", "/openHours/monday/1/from" },
        { "/bays/1/bay", "\"bay-1\"", "/bays/1/bay" },
        { "/bays/0/probes/1/probe", "\"air\"", "/bays/0/probes/1/probe" },
        { "/bays/0/probes/1/calibrations/0/from", "\"2026-02-30\"", "/bays/0/probes/1/calibrations/0/from" },
        { "/bays/0/probes/1/calibrations/0/from", "\"2026-07-01T00:00:00\"", "/bays/0/probes/1/calibrations/0/from" },
        { "/bays/0/probes/1/calibrations/1/from", "\"2026-06-30\"", "/bays/0/probes/1/calibrations/1/from" },
        { "/bays/0/probes/0/every", "\"00:00:00\"", "/bays/0/probes/0/every" },
        { "/bays/0/probes/0/topic", "\"curewatch/v1/test-works/bay-1/climate\"", "/bays/0/probes/0/topic" },
        { "/bays/0/probes/0/topic", "\"curewatch/v1/test-works/bay-1/tap\"", "/bays/0/probes/0/topic" },
        { "/bays/0/probes/0/topic", "\"curewatch/v1/test-works/status\"", "/bays/0/probes/0/topic" },
    };
}
