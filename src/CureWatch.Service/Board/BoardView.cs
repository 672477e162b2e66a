using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Everything the board shows at an instant, in words.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone, for the page's own clock.</param>
/// <param name="Now">The instant.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Warnings">The warnings that stand, the most urgent first.</param>
/// <param name="Bays">The bays.</param>
/// <param name="Elsewhere">Cars no part of which is in a bay.</param>
/// <param name="Backup">The nightly backups; null where there are to be none.</param>
public sealed record BoardView(
    string Shop,
    string Zone,
    Moment Now,
    IReadOnlyList<TroubleView> Troubles,
    IReadOnlyList<WarningView> Warnings,
    IReadOnlyList<BayView> Bays,
    IReadOnlyList<CarView> Elsewhere,
    BackupView? Backup);

/// <summary>A warning that stands.</summary>
/// <param name="Number">Which of all warnings.</param>
/// <param name="Tone">How urgent it is.</param>
/// <param name="Title">What is wrong.</param>
/// <param name="About">Where.</param>
/// <param name="Since">Since when.</param>
/// <param name="Cause">Why.</param>
/// <param name="Consequence">What happens if nobody acts.</param>
/// <param name="Action">What to do.</param>
/// <param name="Caution">What to take care of beside what to do; null where that is heating nothing.</param>
public sealed record WarningView(
    int Number,
    Tone Tone,
    string Title,
    Sentence About,
    Moment Since,
    Sentence Cause,
    Sentence Consequence,
    Sentence Action,
    string? Caution);

/// <summary>A bay.</summary>
/// <param name="Bay">Its id.</param>
/// <param name="Airs">Its air first, then places in it with air of their own.</param>
/// <param name="Probes">Its probes.</param>
/// <param name="Cars">The cars in it.</param>
/// <param name="Night">What to know of its night; null where there is nothing.</param>
public sealed record BayView(
    string Bay, IReadOnlyList<AirView> Airs, IReadOnlyList<ProbeView> Probes, IReadOnlyList<CarView> Cars, NightView? Night);

/// <summary>The air of a bay or of a place in it.</summary>
/// <param name="Place">The place.</param>
/// <param name="Tone">How near it is to condensing.</param>
/// <param name="Word">The same in words.</param>
/// <param name="Measured">When it was measured; null while no air probe is heard.</param>
/// <param name="SpreadK">Spread [K]; null where unknown.</param>
/// <param name="Values">Name and value of the rest.</param>
/// <param name="Chance">How likely the coldest panel is wet, by the limits of the probes; null where unknown.</param>
public sealed record AirView(
    string Place,
    Tone Tone,
    Sentence Word,
    Moment? Measured,
    double? SpreadK,
    IReadOnlyList<(string Name, Sentence Value)> Values,
    Sentence? Chance = null);

/// <summary>A probe.</summary>
/// <param name="Probe">Its id.</param>
/// <param name="Tone">Whether it is heard.</param>
/// <param name="Word">The same in words.</param>
/// <param name="Heard">When it was last heard; null where it never was.</param>
/// <param name="Value">What it said last.</param>
/// <param name="Beside">How it compares with the probes that measure the same.</param>
public sealed record ProbeView(string Probe, Tone Tone, Sentence Word, Moment? Heard, Sentence Value, Sentence Beside);
