using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Service.Journal;

/// <summary>What names a person in an entry, sealed with a key of its own.</summary>
internal sealed record Personal(string? Car = null, string? By = null, string? Note = null)
{
    public static Personal Nothing { get; } = new();
}

/// <summary>A job that was begun.</summary>
internal sealed record SealedJob(Job Job, ImmutableArray<SheetPin> Pins, string? Personal);

/// <summary>A tap.</summary>
internal sealed record SealedTap(string Job, Tap Tap, string? Personal);

/// <summary>A car that left.</summary>
internal sealed record SealedHandover(string Job, bool IsDespite, string? Personal);

/// <summary>Planned work.</summary>
internal sealed record SealedWork(PlannedWork Work, string? Personal);

/// <summary>Planned work that was dropped.</summary>
internal sealed record SealedDrop(string Id, string? Personal);

/// <summary>A visit as it is planned.</summary>
internal sealed record SealedVisit(string Job, Visit Visit, string? Personal);

/// <summary>A car that does not come.</summary>
internal sealed record SealedCancel(string Job, string? Personal);

/// <summary>A photo.</summary>
internal sealed record SealedPhoto(string Job, Photo Photo, string? Personal);

/// <summary>A photo that was taken away.</summary>
internal sealed record SealedRemoval(string Job, string Photo, string? Personal);

/// <summary>Learning that starts anew.</summary>
internal sealed record SealedReset(string Product, string? Bay, string? Personal);
