using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>All that is known of one surface when somebody asks whether it can be coated now.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Laws">The laws of the product that goes on next.</param>
/// <param name="Next">What goes on next; null where every planned layer is on.</param>
/// <param name="Air">The air around it; null where no air probe is heard.</param>
/// <param name="Panel">How warm it is; null where that is not known.</param>
/// <param name="Silence">What is not heard there; null where all is.</param>
/// <param name="Wet">Since when water condenses on the coldest panel there, and until when it last did.</param>
/// <param name="Preparation">What people told of getting the first of its sections ready that go on; null where there is no car yet that they could tell of.</param>
/// <param name="Wettings">Water that touched it, in order.</param>
/// <param name="Times">How long a coat begun now takes, for the next layer and every one after it; empty where the climate is not known.</param>
/// <param name="Night">
/// What an instant to another is expected to bring it, or as far as is foreseen where the other is null; null where that begins later. Null where nobody measures.
/// </param>
/// <param name="Arrival">How far it is since it came in; null where that is not known, or does not matter any more.</param>
/// <param name="Means">What the bay has to change its climate.</param>
public sealed record StartEvidence(
    Surface Surface,
    CoatLaws Laws,
    NextLayer? Next,
    AirLook? Air,
    PanelLook? Panel,
    Silence? Silence,
    Wetness Wet,
    Preparation? Preparation,
    ImmutableArray<Wetting> Wettings,
    ImmutableArray<CoatTimes> Times,
    Func<DateTimeOffset, DateTimeOffset?, NightAhead?>? Night,
    ArrivalLook? Arrival,
    ClimateMeans Means)
{
    /// <summary>The same of the other sections that go on with that one.</summary>
    public ImmutableArray<(int Section, Preparation Preparation)> OtherSections { get; init; } = [];

    /// <summary>When its car comes; null where it is here, or nobody asks about a car.</summary>
    public DateTimeOffset? ComesAt { get; init; }

    /// <summary>How it cools down from its last lamp, or has; null where there was none, or nobody measures the air around it.</summary>
    public CoolDown? AfterLamp { get; init; }

    /// <summary>Whether it is too cold from outdoors to be coated: its times are those once it is no colder than it lasts.</summary>
    public bool IsStillCold { get; init; }

    /// <summary>What others do in the air it is in, or are about to; null where it is in none that anybody shares, or its times are not known.</summary>
    public Neighbours? Neighbours { get; init; }

    /// <summary>
    /// How far it is since it came in, where nothing measured says more. A probe on something of its material may have been there before it came: it
    /// speaks against a mere guess, and not against what is known of the cold outside.
    /// </summary>
    internal ArrivalLook? Coming => Panel switch
    {
        { Basis: PanelBasis.Spot or PanelBasis.ItsProbe } => null,
        { IsMeasured: true } when Arrival is { NowC: null } => null,
        _ => Arrival,
    };

    /// <summary>What is taken for granted of the climate around it from now on, in words.</summary>
    public Sentence ClimateAhead { get; init; } = $"The climate from now on is held as it is now.";

    /// <summary>When it has cooled down from its last lamp; null where it has, or no reading of it tells.</summary>
    internal DateTimeOffset? CoolsUntil => AfterLamp is { HasCooled: false, IsFromReading: true } warm ? warm.CoolFrom : null;

    /// <summary>Whether a reading of it tells that it has cooled down from its last lamp.</summary>
    internal bool HasCooled => AfterLamp is { HasCooled: true, IsFromReading: true };

    /// <summary>The surface as people say it.</summary>
    public Sentence Name => Surface.FullName;
}

/// <summary>A surface of a car that came in cold.</summary>
/// <param name="DryAt">When it is dry enough to be coated.</param>
/// <param name="NowC">What it likely is now [°C]; null where nobody knows how cold it came in, and the coldest that cars come is reckoned with.</param>
/// <param name="NeedsWipe">Whether water condensed on it, and nobody has wiped it down since it stays dry.</param>
public sealed record ArrivalLook(TimeBounds DryAt, double? NowC, bool NeedsWipe)
{
    /// <summary>How cold it is reckoned to have come in where nobody knows [°C]; null where it is known.</summary>
    public double? ColdestC { get; init; }

    /// <summary>Whether it stays dry by then, reckoned with the slowest it may be.</summary>
    internal bool IsDryBy(DateTimeOffset at) => DryAt.Latest <= at;
}

/// <summary>The layer of a surface that goes on next.</summary>
/// <param name="Layer">The layer, from 1.</param>
/// <param name="Sections">The sections it is still missing in and that take it in one go, in order; at least one.</param>
/// <param name="Below">The coats it goes over, in those sections; empty for the first layer.</param>
/// <param name="Held">Why what is below is held.</param>
public sealed record NextLayer(int Layer, ImmutableArray<int> Sections, ImmutableArray<BelowCoat> Below, ImmutableArray<Sentence> Held)
{
    /// <summary>The other sections it is missing in, which take it at another time, or no more.</summary>
    public ImmutableArray<OtherSection> Elsewhere { get; init; } = [];

    /// <summary>Whether it is missing in other sections too.</summary>
    public bool IsPart => !Elsewhere.IsEmpty;

    /// <summary>When the last of its sections that are on was wiped on: what is left of it is done before people go. Null where it is not begun.</summary>
    public DateTimeOffset? BegunAt { get; init; }

    /// <summary>Whether some of it is on already.</summary>
    public bool IsBegun => BegunAt is not null;
}

/// <summary>A section that takes a layer by itself.</summary>
/// <param name="Section">The section, from 1.</param>
/// <param name="From">From when; null where nobody can tell yet.</param>
/// <param name="Until">Until when; null where that has no end, or does not matter any more.</param>
public sealed record OtherSection(int Section, DateTimeOffset? From, DateTimeOffset? Until);

/// <summary>A coat that the next layer goes over.</summary>
/// <param name="Recoat">Its recoat window; null where the sheet gives none.</param>
/// <param name="HasToBeLevelled">Whether it has to be levelled and is not.</param>
/// <param name="IsFoundClear">Whether somebody found it clear since recoat closed.</param>
public sealed record BelowCoat(Window? Recoat, bool HasToBeLevelled, bool IsFoundClear)
{
    /// <summary>Looks at a coat as what another goes over.</summary>
    /// <param name="story">What people told of its surface.</param>
    /// <param name="coat">The coat.</param>
    /// <param name="windows">Its windows.</param>
    /// <returns>What the next layer has to know of it.</returns>
    public static BelowCoat Of(SurfaceStory story, Coat coat, CoatWindows windows) => new(
        windows.Recoat,
        windows.HasToBeLevelled(story),
        story.IsFoundClear(coat.Layer, coat.Section, windows.Recoat?.ClosesAt?.Earliest));
}

/// <summary>Why a climate is not known.</summary>
/// <param name="Probe">The probe that is not heard; null where there is none.</param>
/// <param name="Since">When it was heard last; null where it never was.</param>
/// <param name="Where">The place nobody measures, in words.</param>
public sealed record Silence(string? Probe, DateTimeOffset? Since, Sentence Where);

/// <summary>Water on the coldest panel around a surface.</summary>
/// <param name="Since">Since when it condenses; null where it does not.</param>
/// <param name="Until">When it last ended; null where it never did, as far as is remembered.</param>
public sealed record Wetness(DateTimeOffset? Since, DateTimeOffset? Until);

/// <summary>What a bay has to change its climate, in words that fit behind "with"; null where it has nothing.</summary>
/// <param name="Heat">To warm it.</param>
/// <param name="HeatAtNight">To warm it while nobody is there.</param>
/// <param name="Dry">To take moisture out.</param>
/// <param name="Moisten">To put moisture in.</param>
public sealed record ClimateMeans(Sentence? Heat, Sentence? HeatAtNight, Sentence? Dry, Sentence? Moisten)
{
    /// <summary>To take moisture out while nobody is there.</summary>
    public Sentence? DryAtNight { get; init; }

    /// <summary>A bay that has nothing.</summary>
    public static ClimateMeans None { get; } = new(null, null, null, null);
}

/// <summary>The shop's day in which somebody asks.</summary>
/// <param name="Now">The present.</param>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Today">The day that goes on, or comes next; null where the shop never opens.</param>
/// <param name="Next">The day after it; null where the shop never closes.</param>
/// <param name="Habits">How the shop works.</param>
public sealed record StartDay(DateTimeOffset Now, TimeZoneInfo Zone, ShopDay? Today, ShopDay? Next, WorkHabits Habits)
{
    /// <summary>Who asks so long before opening is there, and means now. Source (choice).</summary>
    internal static readonly TimeSpan EarlyBird = TimeSpan.FromHours(2);

    /// <summary>The shop's days, in which the work on a car goes on; null where they do not matter, and it goes on without a pause.</summary>
    public ShopHours? Hours { get; init; }

    /// <summary>The days that are known: those of the shop, or else the present one and the one after it.</summary>
    internal ShopHours Days => Hours ?? new ShopHours(Now, DateTimeOffset.MaxValue, Zone, [.. new[] { Today, Next }.OfType<ShopDay>()]);

    /// <summary>Whether the shop is closed, and nobody is there yet who might begin.</summary>
    public bool IsClosed => Today?.Opens - Now > EarlyBird;

    /// <summary>The shop's days as whoever asks works in them: somebody who is there before the first opens begins at once.</summary>
    internal ShopHours? WorkHours => Hours is { Days: [var first, ..] } hours && first.Opens > Now && !IsClosed
        ? hours with { Days = hours.Days.SetItem(0, first with { Opens = Now }) }
        : Hours;

    /// <summary>An instant as the shop's clock shows it, with the day where it is another.</summary>
    /// <param name="at">The instant; null for one that never comes.</param>
    /// <returns>The words.</returns>
    public Sentence Clock(DateTimeOffset? at) => at is { } instant ? WallClock.Of(instant, Now, Zone) : $"never";
}
