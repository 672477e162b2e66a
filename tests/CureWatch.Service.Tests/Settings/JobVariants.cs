namespace CureWatch.Service.Tests.Settings;

/// <summary>A job file for the shop and the sheets of the other variants, and ways to break it.</summary>
internal static class JobVariants
{
    public const string Whole = """
        {
          "job": "job-7", "bay": "bay-1", "car": "grey estate", "promisedAt": "2026-03-03T16:00:00Z",
          "surfaces": [
            { "surface": "bonnet", "material": "steel", "product": "paint-x", "layers": 2, "sections": 3 },
            { "surface": "bumper", "material": "film", "over": "plastic", "place": "off-car", "product": "paint-x", "revision": 2 },
            { "surface": "wing", "material": "aluminium", "system": [{ "product": "paint-x", "revision": 2, "layers": 2 }, { "product": "paint-x" }] }
          ],
          "taps": [
            { "id": "a", "at": "2026-03-02T12:00:00+01:00", "reportedAt": "2026-03-02T11:05:00Z", "surface": "bonnet", "did": "applied",
              "layer": 1, "section": 2, "startedAt": "2026-03-02T10:50:00Z", "by": "Sam", "note": "second\nwipe", "batch": "A-7" },
            { "id": "b", "at": "2026-03-02T11:04:00Z", "surface": "bonnet", "did": "levelled", "layer": 1, "section": 2 },
            { "id": "c", "at": "2026-03-02T11:10:00Z", "did": "measured", "panelC": 19.5 },
            { "id": "d", "at": "2026-03-02T11:20:00Z", "surface": "bonnet", "did": "inspected", "found": "high-spot" },
            { "id": "e", "at": "2026-03-02T11:21:00Z", "surface": "bonnet", "did": "reworked", "how": "re-wet",
              "startedAt": "2026-03-02T11:20:30Z" },
            { "id": "f", "at": "2026-03-02T11:30:00Z", "did": "moved", "toBay": "store" },
            { "id": "g", "at": "2026-03-02T11:03:00Z", "surface": "bonnet", "did": "levelled", "corrects": "b" },
            { "id": "h", "at": "2026-03-02T11:32:00Z", "did": "measured", "panelF": 72.5 }
          ]
        }
        """;

    /// <summary>Refused by the schema and by the reader.</summary>
    public static TheoryData<string, string?, string> ForBoth { get; } = new()
    {
        { "/job", null, "/job" },
        { "/job", "\"Job 7\"", "/job" },
        { "/bay", null, "/bay" },
        { "/surfaces", "[]", "/surfaces" },
        { "/surfaces", null, "/surfaces" },
        { "/plate", "\"x\"", "/plate" },
        { "/car", "\"\"", "/car" },
        { "/promisedAt", "\"2026-03-03T16:00:00\"", "/promisedAt" },
        { "/promisedAt", "\"tomorrow\"", "/promisedAt" },
        { "/surfaces/0/surface", null, "/surfaces/0/surface" },
        { "/surfaces/0/material", "\"wood\"", "/surfaces/0/material" },
        { "/surfaces/0/material", null, "/surfaces/0/material" },
        { "/surfaces/0/product", null, "/surfaces/0/product" },
        { "/surfaces/0/over", "\"steel\"", "/surfaces/0/over" },
        { "/surfaces/0/layers", "0", "/surfaces/0/layers" },
        { "/surfaces/0/layers", "10", "/surfaces/0/layers" },
        { "/surfaces/0/sections", "100", "/surfaces/0/sections" },
        { "/surfaces/0/colour", "1", "/surfaces/0/colour" },
        { "/surfaces/1/over", "\"film\"", "/surfaces/1/over" },
        { "/surfaces/1/place", "\"boot\"", "/surfaces/1/place" },
        { "/surfaces/1/revision", "\"2\"", "/surfaces/1/revision" },
        { "/surfaces/2/product", "\"paint-x\"", "/surfaces/2/system" },
        { "/surfaces/2/layers", "2", "/surfaces/2/system" },
        { "/surfaces/2/system", "[]", "/surfaces/2/system" },
        { "/surfaces/2/system", null, "/surfaces/2/product" },
        { "/surfaces/2/system/0/product", null, "/surfaces/2/system/0/product" },
        { "/surfaces/2/system/1/layers", "0", "/surfaces/2/system/1/layers" },
        { "/surfaces/2/system/1/sections", "2", "/surfaces/2/system/1/sections" },
        { "/taps/0/at", null, "/taps/0/at" },
        { "/taps/0/at", "\"12:00\"", "/taps/0/at" },
        { "/taps/0/did", null, "/taps/0/did" },
        { "/taps/0/did", "\"sprayed\"", "/taps/0/did" },
        { "/taps/0/layer", "10", "/taps/0/layer" },
        { "/taps/0/section", "0", "/taps/0/section" },
        { "/taps/0/id", "\"12345678901234567890123456789012345678901234567890123456789012345\"", "/taps/0/id" },
        { "/taps/0/note", "\"\"", "/taps/0/note" },
        { "/taps/0/reportedAt", "\"2026-03-02\"", "/taps/0/reportedAt" },
        { "/taps/0/found", "\"clear\"", "/taps/0/found" },
        { "/taps/0/how", "\"wiped\"", "/taps/0/how" },
        { "/taps/0/toBay", "\"store\"", "/taps/0/toBay" },
        { "/taps/0/batch", "\" \"", "/taps/0/batch" },
        { "/taps/0/batch", "\"A\\tB\"", "/taps/0/batch" },
        { "/taps/0/batch", "\"12345678901234567890123456789012345678901\"", "/taps/0/batch" },
        { "/taps/2/batch", "\"A\"", "/taps/2/batch" },
        { "/taps/1/startedAt", "\"2026-03-02T11:00:00Z\"", "/taps/1/startedAt" },
        { "/taps/1/colour", "1", "/taps/1/colour" },
        { "/taps/1/surface", "null", "/taps/1/surface" },
        { "/taps/2/panelC", null, "/taps/2/panelC" },
        { "/taps/2/panelC", "\"19.5\"", "/taps/2/panelC" },
        { "/taps/2/panelC", "201", "/taps/2/panelC" },
        { "/taps/2/panelF", "67.1", "/taps/2/panelF" },
        { "/taps/7/panelF", null, "/taps/7/panelC" },
        { "/taps/7/panelF", "393", "/taps/7/panelF" },
        { "/taps/3/found", null, "/taps/3/found" },
        { "/taps/3/found", "\"scratch\"", "/taps/3/found" },
        { "/taps/4/how", null, "/taps/4/how" },
        { "/taps/4/how", "\"wiped\"", "/taps/4/startedAt" },
        { "/taps/4/how", "\"polished-off\"", "/taps/4/startedAt" },
        { "/taps/4/how", "\"sanded\"", "/taps/4/how" },
        { "/taps/5/toBay", null, "/taps/5/toBay" },
    };

    /// <summary>What refers to other places and other files, which only the reader can check.</summary>
    public static TheoryData<string, string?, string> ForTheReader { get; } = new()
    {
        { "/bay", "\"bay-9\"", "/bay" },
        { "/surfaces/0/product", "\"wax\"", "/surfaces/0/product" },
        { "/surfaces/1/revision", "9", "/surfaces/1/revision" },
        { "/surfaces/1/surface", "\"bonnet\"", "/surfaces/1/surface" },
        { "/surfaces/2/system/0/revision", "9", "/surfaces/2/system/0/revision" },
        { "/surfaces/2/system/1/product", "\"wax\"", "/surfaces/2/system/1/product" },
        { "/surfaces/2/system/0/layers", "9", "/surfaces/2/system" },
        { "/taps/0/surface", "\"roof\"", "/taps/0/surface" },
        { "/taps/0/section", "4", "/taps/0/section" },
        { "/taps/0/layer", "4", "/taps/0/layer" },
        { "/taps/2/layer", "5", "/taps/2/layer" },
        { "/taps/0/startedAt", "\"2026-03-01T10:59:59Z\"", "/taps/0/startedAt" },
        { "/taps/0/reportedAt", "\"2026-03-02T10:57:59Z\"", "/taps/0/reportedAt" },
        { "/taps/2/section", "4", "/taps/2/section" },
        { "/taps/0/startedAt", "\"2026-03-02T11:00:01Z\"", "/taps/0/startedAt" },
        { "/taps/1/id", "\"a\"", "/taps/1/id" },
        { "/taps/5/toBay", "\"bay-9\"", "/taps/5/toBay" },
        { "/taps/6/corrects", "\"z\"", "/taps/6/corrects" },
        { "/taps/6/corrects", "\"g\"", "/taps/6/corrects" },
        { "/taps/1/corrects", "\"g\"", "/taps/1/corrects" },
    };
}
