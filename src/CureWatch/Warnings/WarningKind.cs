namespace CureWatch.Warnings;

/// <summary>What a person is warned of.</summary>
public enum WarningKind
{
    /// <summary>Water condenses on the coldest panel.</summary>
    Condensing,

    /// <summary>Air moister than the sheet allows.</summary>
    HumidityHigh,

    /// <summary>Air drier than the sheet allows.</summary>
    HumidityLow,

    /// <summary>A panel colder than the sheet allows.</summary>
    PanelCold,

    /// <summary>A panel hotter than the sheet allows.</summary>
    PanelHot,

    /// <summary>The cure has all but stopped.</summary>
    CureStalled,

    /// <summary>A coat may be levelled.</summary>
    LevelDue,

    /// <summary>Level-off is about to close.</summary>
    LevelClosing,

    /// <summary>Level-off has closed.</summary>
    LevelMissed,

    /// <summary>Recoat is about to close.</summary>
    RecoatClosing,

    /// <summary>Recoat has closed.</summary>
    RecoatMissed,

    /// <summary>Water touched a coat that has to stay dry.</summary>
    Wetted,

    /// <summary>A surface is about to get hotter than it may, or is.</summary>
    LampOverLimit,

    /// <summary>A probe is not heard.</summary>
    ProbeSilent,

    /// <summary>Nothing can be stored. Told by whoever stores, never by the shop's state.</summary>
    StorageTrouble,

    /// <summary>Storing gets difficult. Told by whoever stores, never by the shop's state.</summary>
    StorageAhead,

    /// <summary>The broker that brings the readings is away. Told by whoever listens, never by the shop's state.</summary>
    BrokerTrouble,

    /// <summary>The clock is behind what is recorded. Told by whoever records, never by the shop's state.</summary>
    ClockTrouble,

    /// <summary>No backup can be made. Told by whoever makes them, never by the shop's state.</summary>
    BackupTrouble,

    /// <summary>What the board shows by HTTPS ends soon. Told by whoever shows it, never by the shop's state.</summary>
    CertificateTrouble,

    /// <summary>The next start would refuse the files of the configuration. Told by whoever reads them, never by the shop's state.</summary>
    SettingsTrouble,

    /// <summary>A probe says what no sound sensor can.</summary>
    ProbeImplausible,

    /// <summary>Probes that measure one thing say different things of it.</summary>
    ProbeDisagreeing,

    /// <summary>A car may not be ready when its customer was told.</summary>
    PromiseAtRisk,

    /// <summary>Work in the air that an open coat shares harms it, or is about to.</summary>
    AirspaceConflict,

    /// <summary>Water is likely to condense on the coldest panel.</summary>
    CondensingAhead,

    /// <summary>The air is likely to get moister than the sheet allows.</summary>
    HumidityHighAhead,

    /// <summary>The air is likely to get drier than the sheet allows.</summary>
    HumidityLowAhead,

    /// <summary>A panel is likely to get colder than the sheet allows.</summary>
    PanelColdAhead,

    /// <summary>A panel is likely to get hotter than the sheet allows.</summary>
    PanelHotAhead,

    /// <summary>The cure is likely to all but stop.</summary>
    CureStalledAhead,

    /// <summary>Air from outdoors would wet the coldest panel if a door were opened.</summary>
    OutdoorWets,

    /// <summary>A probe stands still for longer than can well be: what it says is doubted until it moves.</summary>
    ProbeStandsStill,

    /// <summary>A probe stands still while what it cannot part from moved: what it says is not believed.</summary>
    ProbeStuck,

    /// <summary>What was stored is not what it was. Told by whoever stores, never by the shop's state.</summary>
    StorageDamage,

    /// <summary>A lamp burns over a surface that nobody reads.</summary>
    LampUnread,
}
