using CureWatch.Curing;
using CureWatch.Words;

namespace CureWatch.Handover;

/// <summary>Says what was told, as it begins a sentence.</summary>
internal static class DidWords
{
    public static Sentence Of(Did did) => did switch
    {
        Did.Applied => $"Applied",
        Did.Flashed => $"Flashed",
        Did.Levelled => $"Levelled",
        Did.Wetted => $"Wetted",
        Did.Dried => $"Dried",
        Did.Inspected => $"Inspected",
        Did.Reworked => $"Reworked",
        Did.LampOn => $"Lamp on",
        Did.LampOff => $"Lamp off",
        Did.Measured => $"Measured",
        Did.Moved => $"Moved",
        Did.Washed => $"Washed",
        Did.Polished => $"Polished",
        Did.PanelWiped => $"Wiped down",
        Did.Told => $"Told",
        Did.Withdrawn => $"Withdrawn",
        _ => throw new ArgumentOutOfRangeException(nameof(did), did, "No tap."),
    };

    public static Sentence Of(Found found) => found switch
    {
        Found.Clear => $"Clear",
        Found.HighSpot => $"High spot",
        Found.Streak => $"Streak",
        Found.WaterMark => $"Water mark",
        Found.Dust => $"Dust",
        _ => throw new ArgumentOutOfRangeException(nameof(found), found, "Nothing an inspection finds."),
    };
}
