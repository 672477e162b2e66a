using System.Diagnostics;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The library's names as people say them.</summary>
internal static class BoardWords
{
    public static string Of(WarningKind kind) => kind switch
    {
        WarningKind.Condensing => "Water is condensing",
        WarningKind.HumidityHigh => "Air too moist for the sheet",
        WarningKind.HumidityLow => "Air too dry for the sheet",
        WarningKind.PanelCold => "Panel too cold for the sheet",
        WarningKind.PanelHot => "Panel too hot for the sheet",
        WarningKind.CureStalled => "The cure stands still",
        WarningKind.LevelDue => "Ready to level",
        WarningKind.LevelClosing => "Level-off is closing",
        WarningKind.LevelMissed => "Level-off missed",
        WarningKind.RecoatClosing => "Recoat is closing",
        WarningKind.RecoatMissed => "Recoat missed",
        WarningKind.Wetted => "A coat got wet",
        WarningKind.LampOverLimit => "Too hot under the lamp: switch it off",
        WarningKind.LampUnread => "Nobody reads what the lamp heats: read it or switch it off",
        WarningKind.ProbeSilent => "A probe is silent",
        WarningKind.StorageTrouble => "Nothing is recorded any more",
        WarningKind.StorageAhead => "Recording is at risk",
        WarningKind.StorageDamage => "Part of what was recorded is damaged",
        WarningKind.BrokerTrouble => "No probe can be heard: the broker is away",
        WarningKind.ClockTrouble => "The clock of this computer is wrong",
        WarningKind.BackupTrouble => "No backup is made",
        WarningKind.CertificateTrouble => "The board's certificate ends soon",
        WarningKind.SettingsTrouble => "The next start would refuse the settings",
        WarningKind.ProbeImplausible => "A probe cannot be believed",
        WarningKind.ProbeDisagreeing => "Probes disagree",
        WarningKind.ProbeStandsStill => "A probe has not moved: check it",
        WarningKind.ProbeStuck => "A probe is stuck",
        WarningKind.PromiseAtRisk => "A promise is at risk",
        WarningKind.AirspaceConflict => "Work here would harm an open coat",
        WarningKind.CondensingAhead => "Water is likely to condense",
        WarningKind.HumidityHighAhead => "Air likely to get too moist for the sheet",
        WarningKind.HumidityLowAhead => "Air likely to get too dry for the sheet",
        WarningKind.PanelColdAhead => "Panels likely to get too cold for the sheet",
        WarningKind.PanelHotAhead => "Panels likely to get too hot for the sheet",
        WarningKind.CureStalledAhead => "The cure is likely to stand still",
        WarningKind.OutdoorWets => "Keep the doors shut: air from outdoors wets the panels",
        _ => Spoken(kind),
    };

    public static string Of(HoldKind kind) => Spoken(kind);

    public static string Of(Place place) => place == Place.Outside ? "bay" : WireName<Place>.Of(place).Replace('-', ' ');

    /// <summary>What somebody told, where nothing more is to be said of it.</summary>
    public static Sentence Of(Did did) => did switch
    {
        Did.Applied => $"applied",
        Did.Flashed => $"flashed",
        Did.Levelled => $"levelled",
        Did.Wetted => $"got wet",
        Did.Dried => $"dried",
        Did.Inspected => $"looked at",
        Did.Reworked => $"worked again",
        Did.LampOn => $"lamp on",
        Did.LampOff => $"lamp off",
        Did.Measured => $"measured",
        Did.Moved => $"moved",
        Did.Washed => $"washed",
        Did.Polished => $"polished",
        Did.PanelWiped => $"wiped down",
        Did.Told => $"told",
        Did.Withdrawn => $"taken back",
        _ => throw new UnreachableException($"{did}"),
    };

    public static Sentence Of(Found found) => found switch
    {
        Found.Clear => $"clear",
        Found.HighSpot => $"high spot",
        Found.Streak => $"streak",
        Found.WaterMark => $"water mark",
        Found.Dust => $"dust",
        _ => throw new UnreachableException($"{found}"),
    };

    public static Sentence Of(Coat coat) => Coat(coat.Surface, coat.Layer, coat.Section);

    public static Sentence Coat(Surface surface, int layer, int section)
    {
        bool hasLayers = surface.Layers > 1 || layer > 1;
        bool hasSections = surface.Sections > 1;
        return hasLayers && hasSections ? $"{surface.Id}, layer {layer}, section {section} of {surface.Sections}"
            : hasLayers ? $"{surface.Id}, layer {layer}"
            : hasSections ? $"{surface.Id}, section {section} of {surface.Sections}"
            : Sentence.Named(surface.Id);
    }

    public static Sentence Coat(string? surface, int? layer, int? section) => Sentence.Join(
        ", ",
        new[] { surface is null ? null : Sentence.Named(surface), layer is { } l ? (Sentence)$"layer {l}" : null, section is { } s ? (Sentence)$"section {s}" : null }.OfType<Sentence>());

    /// <summary>Where a car is moved to: a bay by its name, or what is none.</summary>
    public static Sentence Whereabouts(string place) => place switch
    {
        Curing.Whereabouts.Store => $"store",
        Curing.Whereabouts.Outside => $"outside",
        _ => Sentence.Named(place),
    };

    /// <summary>Words that came as text, in English, and are looked up as they stand.</summary>
    public static Sentence Phrase(string english)
    {
        var phrase = new Sentence(english.Length, 0);
        phrase.AppendLiteral(english);
        return phrase;
    }

    private static string Spoken<T>(T value)
        where T : struct, Enum
    {
        string words = WireName<T>.Of(value).Replace('-', ' ');
        return $"{char.ToUpperInvariant(words[0])}{words[1..]}";
    }
}
