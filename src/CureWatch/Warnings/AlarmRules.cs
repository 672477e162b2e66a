using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Warnings;

/// <summary>Every kind of warning with its delays and its words, in the order of the kinds.</summary>
internal static class AlarmRules
{
    public static AlarmRule[] All { get; } =
    [
        Climate(
            WarningKind.Condensing, 1, onMinutes: 2, offMinutes: 10, deadband: 1, leastLooks: 1,
            $"The coldest panel is at or below the condensation temperature of the air.",
            $"Water spots and a spoiled cure; the car is held.",
            $"Warm the panels or dry the air without unvented burners; look at every coat that has to stay dry."),
        Climate(
            WarningKind.HumidityHigh, 2, onMinutes: 10, offMinutes: 15, deadband: 2, leastLooks: 2,
            $"The air is moister than the sheet allows.",
            $"Hazing, and a coat that grabs too soon.",
            $"Stop washing next door, extract or dehumidify. Keep the doors shut; use only the equipment of this bay."),
        Climate(
            WarningKind.HumidityLow, 3, onMinutes: 10, offMinutes: 15, deadband: 2, leastLooks: 2,
            $"The air is drier than the sheet allows.",
            $"The cure slows or stops.",
            $"Humidify, or heat less. Keep the doors shut; use only the equipment of this bay."),
        Climate(
            WarningKind.PanelCold, 2, onMinutes: 10, offMinutes: 15, deadband: 1, leastLooks: 2,
            $"A panel is colder than the sheet allows.",
            $"The cure slows; condensation comes near.",
            $"Heat with what is fixed to the building. Keep the doors shut; use only the equipment of this bay."),
        Climate(
            WarningKind.PanelHot, 2, onMinutes: 5, offMinutes: 15, deadband: 1, leastLooks: 2,
            $"A panel is hotter than the sheet allows.",
            $"Flash and level-off shorten; film and plastic suffer.",
            $"Shade it, move the lamp away, let it cool."),
        Climate(
            WarningKind.CureStalled, 3, onMinutes: 30, offMinutes: 30, deadband: 0.05, leastLooks: 2,
            $"The climate earns the coat next to nothing.",
            $"The car will not be ready when promised.",
            $"Warm the bay and add moisture; tell whoever promised."),
        Exact(WarningKind.LevelDue, 1, $"The coat has flashed.", $"It grabs.", $"Level it now.") with { OvertakenBy = [WarningKind.LevelClosing, WarningKind.LevelMissed] },
        Exact(WarningKind.LevelClosing, 1, $"Level-off is about to close.", $"Late costs a polish.", $"Level it before anything else.") with
        {
            OvertakenBy = [WarningKind.LevelMissed],
        },
        Exact(
            WarningKind.LevelMissed, 1,
            $"The last safe moment to level has passed.",
            $"High spots set hard.",
            $"Re-wet and level now, then inspect."),
        Exact(
            WarningKind.RecoatClosing, 2,
            $"Recoat is about to close.",
            $"The next layer will not bond as it should.",
            $"Apply the next layer.") with
        {
            OvertakenBy = [WarningKind.RecoatMissed],
        },
        Exact(
            WarningKind.RecoatMissed, 2,
            $"Recoat has closed.",
            $"The next layer will not bond as it should.",
            $"See the sheet before applying another layer."),
        Exact(
            WarningKind.Wetted, 1,
            $"Water touched a coat that has to stay dry.",
            $"Water marks.",
            $"Dry it now without rubbing, tell when it is dry, inspect."),
        Exact(
            WarningKind.LampOverLimit, 1,
            $"The surface is heated so fast that it passes its heat limit before it is read again, or it has passed it.",
            $"The coat, or the film or plastic under it, is spoiled; the car is held.",
            $"Switch the lamp off now, or move it away, and watch the panel's own temperature, never the clock."),
        new(
            WarningKind.ProbeSilent, 2, TimeSpan.Zero, OffDelay: TimeSpan.FromMinutes(10), Deadband: 0, LeastLooks: 1,
            $"A probe has missed three readings.",
            $"Nothing it watches is counted as fine.",
            $"Look at its battery, its place and the network."),
        Exact(
            WarningKind.StorageTrouble, 1,
            $"The journal cannot be written.",
            $"No reading and no tap is taken any more: from here on the shop counts as unwatched.",
            $"Write down what is done to which coat, and when. Make room on the disk or put it right: it goes on by itself then."),
        Exact(
            WarningKind.StorageAhead, 2,
            $"Storing is getting difficult.",
            $"What cannot be stored is not taken, and has to be told again.",
            $"Make room on the disk, or have it looked at, before nothing is taken any more."),
        new(
            WarningKind.BrokerTrouble, 2, TimeSpan.FromSeconds(30), OffDelay: TimeSpan.FromSeconds(10), Deadband: 0, LeastLooks: 1,
            $"The broker is away.",
            $"No probe and no push-button is heard; nothing they watch is counted as fine.",
            $"Look at the computer the broker runs on and at the network; tell taps here meanwhile."),
        Exact(
            WarningKind.ClockTrouble, 1,
            $"This computer's clock is wrong.",
            $"Behind the journal, time stands still here until it has caught up: no window moves, and readings are refused as late. After a jump ahead, "
            + $"what it skipped counts as a time without readings, and what fell due in it is told at once.",
            $"Set the clock right. If it is right now and ran ahead before, watch the coats by eye until it has caught up."),
        Exact(
            WarningKind.BackupTrouble, 3,
            $"The nightly backup fails.",
            $"The bay is watched and recorded as ever; if this computer's disk breaks, what came since the newest backup is lost.",
            $"Look at the folder of the backups: whether it is there, may be written and has room. It is tried again every quarter of an hour."),
        Exact(
            WarningKind.CertificateTrouble, 3,
            $"The board's certificate is about to end.",
            $"From then on no phone and no screen opens the board by HTTPS, and phones keep no page for the time without Wi-Fi.",
            $"Put the renewed certificate and its key into their files: they are taken up within a minute. Where the shop is its own authority, delete the folder "
            + $"certificates of the data folder, start again and install the new authority on the phones."),
        Exact(
            WarningKind.SettingsTrouble, 2,
            $"The next start would refuse the files of the configuration.",
            $"The service goes on as it was set up. After a power cut or an update it would not start, and the shop would be unwatched.",
            $"Put right what is named, or put the file back as it was; curewatch check finds the faults of a file."),
        new(
            WarningKind.ProbeImplausible, 2, OnDelay: TimeSpan.FromMinutes(10), OffDelay: TimeSpan.FromMinutes(10), Deadband: 0, LeastLooks: 3,
            $"A probe says what no sound sensor can.",
            $"It counts as missing: nothing it watches is counted as fine, and what it says moves no window.",
            $"Look at its wire, its battery and its place, and whether it is wet or dirty; change it. Until then measure by hand."),
        new(
            WarningKind.ProbeDisagreeing, 2, OnDelay: TimeSpan.FromMinutes(20), OffDelay: TimeSpan.FromMinutes(31), Deadband: 0, LeastLooks: 4,
            $"Probes that measure one thing say different things of it.",
            $"The odd one out of three is not believed; of two the worse counts for everything: releases move later and deadlines earlier.",
            $"Hold them side by side, away from doors, lamps and heaters, for a quarter of an hour; calibrate or change the one that is off."),
        new(
            WarningKind.PromiseAtRisk, 2, OnDelay: TimeSpan.FromMinutes(15), OffDelay: TimeSpan.FromMinutes(30), Deadband: 0.05, LeastLooks: 2,
            $"The car may not be ready when its customer was told.",
            $"The customer comes for a car that may not leave.",
            $"Do what gets it back, or tell the customer the new time and tell that here."),
        Exact(
            WarningKind.AirspaceConflict, 1,
            $"Work that harms an open coat goes on in the air it shares, or is about to begin.",
            $"Dust, craters, water marks or haze in the coat, to be polished off again; solvent vapour near a lamp or a heater catches fire.",
            $"Do not begin it, or stop it now, and tell it; the day plan names the nearest time at which it harms nobody. Shut the doors between, if there are any."),
        Ahead(
            WarningKind.CondensingAhead, 1,
            $"The air is likely to get as moist as the coldest panel can bear.",
            $"Water spots and a spoiled cure; the car is held.") with
        {
            OnDelay = TimeSpan.FromMinutes(10), OffDelay = TimeSpan.FromHours(3), Deadband = LikelyEnough - NextToNone, LeastLooks = 2,
        },
        Ahead(WarningKind.HumidityHighAhead, 3, $"The air is likely to get moister than the sheet allows.", $"Hazing, and a coat that grabs too soon."),
        Ahead(WarningKind.HumidityLowAhead, 3, $"The air is likely to get drier than the sheet allows.", $"The cure slows or stops."),
        Ahead(WarningKind.PanelColdAhead, 3, $"A panel is likely to get colder than the sheet allows.", $"The cure slows; condensation comes near."),
        Ahead(WarningKind.PanelHotAhead, 3, $"A panel is likely to get hotter than the sheet allows.", $"Flash and level-off shorten; film and plastic suffer."),
        Ahead(WarningKind.CureStalledAhead, 3, $"The climate is likely to earn the coat next to nothing.", $"The car will not be ready when promised."),
        Climate(
            WarningKind.OutdoorWets, 2, onMinutes: 10, offMinutes: 30, deadband: 1, leastLooks: 2,
            $"The air outdoors condenses at a higher temperature than the coldest panel has.",
            $"Opening a door wets what has to stay dry; the car is held.",
            $"Keep the doors shut until the panels are warmer than the dew point outdoors, and do not air the bay."),
        Exact(
            WarningKind.ProbeStandsStill, 3,
            $"A probe repeats one value for longer than can well be.",
            $"If it is stuck, what it repeats was never measured. Until it moves, the worst that can have become of it counts: releases move later, deadlines earlier.",
            $"Check it: breathe on an air probe, lay a hand beside a panel probe. If it does not move within minutes, start it anew or change it."),
        Exact(
            WarningKind.ProbeStuck, 2,
            $"A probe repeats one value while what it cannot part from moved.",
            $"It is not believed since it began to: what others measure counts instead, else the worst that can have become of it. Releases move later, deadlines earlier.",
            $"Start it anew, or change it. Until then measure by hand."),
        Exact(
            WarningKind.StorageDamage, 2,
            $"A part of the journal that was full and sealed is damaged.",
            $"The bay is watched and recorded as ever, but what happened then can no longer be shown, exported or backed up, and a start without a snapshot is refused.",
            $"Delete no backup. Put the file back from a backup that has it (a zip file; the service may go on), or stop the service and restore the last verified "
            + $"backup to a new folder. Have the disk looked at."),
        Exact(
            WarningKind.LampUnread, 1,
            $"A lamp burns over a surface that nobody reads.",
            $"Nothing tells when the coat, or the film or plastic under it, gets hotter than it may; and no minute of it counts for the cure.",
            $"Read it now and tell what it says, then every five minutes; or switch the lamp off and tell that."),
    ];

    /// <summary>How likely water has to be before anybody is told [1].</summary>
    public const double LikelyEnough = NightAhead.WorthAWarning;

    /// <summary>What it has to fall to before water is no longer expected [1]. Source (choice): a night that looks better for an hour is the same night.</summary>
    private const double NextToNone = 0.01;

    /// <summary>How likely what only slows the cure, or leaves the sheet, has to be [1]. Source (choice): tried on the same nights; told more often it is not read.</summary>
    public const double LikelyEnoughForSheet = 0.6;

    private static AlarmRule Climate(
        WarningKind kind,
        int priority,
        int onMinutes,
        int offMinutes,
        double deadband,
        int leastLooks,
        Sentence cause,
        Sentence consequence,
        Sentence action) => new(
            kind,
            priority,
            TimeSpan.FromMinutes(onMinutes),
            TimeSpan.FromMinutes(offMinutes),
            deadband,
            leastLooks,
            cause,
            consequence,
            action);

    private static AlarmRule Ahead(WarningKind kind, int priority, Sentence cause, Sentence consequence) => new(
        kind,
        priority,
        OnDelay: TimeSpan.FromMinutes(20),
        OffDelay: TimeSpan.FromMinutes(60),
        Deadband: 0.05,
        LeastLooks: 3,
        cause,
        consequence,
        $"Do what it says still helps, and look again before lock-up.");

    private static AlarmRule Exact(WarningKind kind, int priority, Sentence cause, Sentence consequence, Sentence action) =>
        new(kind, priority, TimeSpan.Zero, TimeSpan.Zero, 0, 1, cause, consequence, action);
}
