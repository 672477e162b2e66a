using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Service.Journal;

/// <summary>
/// What the journal holds: every input the shop's state follows from, the facts that left the house, and the journal's own marks. An entry
/// happened at its frame's instant.
/// </summary>
internal abstract record Entry
{
    private Entry()
    {
    }

    /// <summary>The program began to write.</summary>
    internal sealed record EngineStarted(string Program) : Entry;

    /// <summary>Time passed, or a due instant was reached.</summary>
    internal sealed record ClockReached : Entry;

    /// <summary>A reading arrived that could be decoded, in °C and % RH, before anyone believes it.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Probe">The probe.</param>
    /// <param name="MeasuredAt">The sensor's claim; null where the arrival counts.</param>
    /// <param name="AirC">Air temperature [°C].</param>
    /// <param name="HumidityPct">Relative humidity [%].</param>
    /// <param name="PanelC">Panel temperature [°C].</param>
    /// <param name="Sequence">The number the sensor gave it.</param>
    internal sealed record Reading(
        string Bay, string Probe, DateTimeOffset? MeasuredAt, double? AirC, double? HumidityPct, double? PanelC, long? Sequence = null) : Entry;

    /// <summary>Messages that were no readings, counted since the entry of this kind before.</summary>
    internal sealed record RefusalsCounted(ImmutableArray<RefusalCount> Counts) : Entry;

    /// <summary>A shop or a product sheet was set up or changed.</summary>
    /// <param name="Item">Which.</param>
    /// <param name="Sha256">Of the document, in lower-case hexadecimal.</param>
    /// <param name="Document">The whole document, as it was written in UTF-8.</param>
    /// <param name="Origin">Where it came from.</param>
    internal sealed record SettingsChanged(SettingsItem Item, string Sha256, string Document, SettingsOrigin Origin) : Entry;

    /// <summary>A car's work was begun.</summary>
    /// <param name="Job">The job, each surface with its product's revision.</param>
    /// <param name="Pins">The sheets it keeps.</param>
    internal sealed record JobStarted(Job Job, ImmutableArray<SheetPin> Pins) : Entry;

    /// <summary>A person told something; a correction names what it replaces.</summary>
    internal sealed record Tapped(string Job, Tap Tap) : Entry;

    /// <summary>A car left.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="By">Who handed it over.</param>
    /// <param name="Despite">Why it left although something held it; null where nothing did.</param>
    internal sealed record HandedOver(string Job, string? By, string? Despite) : Entry;

    /// <summary>Somebody had what was learnt about a product start anew.</summary>
    /// <param name="Product">The product, all its revisions.</param>
    /// <param name="Bay">Only what concerns this bay; null for all.</param>
    /// <param name="By">Who.</param>
    /// <param name="Note">Why.</param>
    internal sealed record LearningReset(string Product, string? Bay, string? By, string? Note) : Entry;

    /// <summary>Somebody planned work other than coating, or planned it otherwise.</summary>
    /// <param name="Work">The work; one with the id of another takes its place.</param>
    internal sealed record WorkPlanned(PlannedWork Work) : Entry;

    /// <summary>Somebody dropped planned work.</summary>
    /// <param name="Id">Its id.</param>
    /// <param name="By">Who.</param>
    /// <param name="Note">Why.</param>
    internal sealed record WorkDropped(string Id, string? By, string? Note) : Entry;

    /// <summary>Somebody planned otherwise when a car comes and is begun.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="Visit">When.</param>
    /// <param name="By">Who.</param>
    /// <param name="Note">Why.</param>
    internal sealed record VisitPlanned(string Job, Visit Visit, string? By, string? Note) : Entry;

    /// <summary>A car that was to come does not.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="By">Who told.</param>
    /// <param name="Note">Why.</param>
    internal sealed record VisitCancelled(string Job, string? By, string? Note) : Entry;

    /// <summary>A photo of a car was kept; its picture is on disk before.</summary>
    internal sealed record PhotoAdded(string Job, Photo Photo) : Entry;

    /// <summary>A photo's picture was taken away; that there was one stays.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="Photo">Which: the SHA-256 of its picture.</param>
    /// <param name="By">Who.</param>
    internal sealed record PhotoRemoved(string Job, string Photo, string? By) : Entry;

    /// <summary>A fact: a warning was given, or is over.</summary>
    /// <param name="Number">Which of all warnings ever given, from 0.</param>
    /// <param name="Kind">Its kind.</param>
    /// <param name="IsOver">Whether it is over.</param>
    /// <param name="At">When the shop says it was given or over.</param>
    internal sealed record WarningChanged(int Number, string Kind, bool IsOver, DateTimeOffset At) : Entry;

    /// <summary>A fact: the ruling on a car turned.</summary>
    /// <param name="Number">Which of all turns of all rulings, from 0.</param>
    /// <param name="Job">The job.</param>
    /// <param name="IsReady">Whether it may leave.</param>
    /// <param name="At">When it turned.</param>
    internal sealed record Ruled(int Number, string Job, bool IsReady, DateTimeOffset At) : Entry;

    /// <summary>The last entry of a full segment.</summary>
    /// <param name="Previous">SHA-256 of the whole segment before; empty in the first, and where that was not what had been sealed.</param>
    /// <param name="Content">SHA-256 of this segment up to this entry.</param>
    internal sealed record SegmentSealed(string Previous, string Content) : Entry
    {
        /// <summary>Whether this may follow the segment before.</summary>
        /// <param name="previous">SHA-256 of it; null where nobody knows what it was.</param>
        public bool Follows(string? previous) => previous is null || Previous.Length == 0 || Previous == previous;
    }

    /// <summary>The program was stopped as it should be. Only the writer makes it, as a <see cref="ClosingMark"/>.</summary>
    internal sealed record JournalClosed : Entry;
}

/// <summary>How often something was refused.</summary>
/// <param name="Reason">The reason's name on the wire.</param>
/// <param name="Place">The probe as <c>bay/probe</c>, or where else it was seen.</param>
/// <param name="Count">How often.</param>
internal sealed record RefusalCount(string Reason, string Place, int Count);

/// <summary>Names a shop (<c>shop</c>, its id, 0) or a product sheet (<c>product</c>, its id, its revision).</summary>
internal readonly record struct SettingsItem(string Kind, string Id, int Revision) : IComparable<SettingsItem>
{
    /// <summary>The kind of the shop's own settings.</summary>
    public const string Shop = "shop";

    /// <summary>The kind of a product sheet.</summary>
    public const string Product = "product";

    public int CompareTo(SettingsItem other) =>
        string.CompareOrdinal(Kind, other.Kind) is not 0 and var kind ? kind
        : string.CompareOrdinal(Id, other.Id) is not 0 and var id ? id
        : Revision.CompareTo(other.Revision);
}

/// <summary>Where a setting came from.</summary>
internal enum SettingsOrigin
{
    File,
    Board,
}

/// <summary>A product sheet a job keeps, and the hash of its document.</summary>
internal sealed record SheetPin(string Product, int Revision, string Sha256);
