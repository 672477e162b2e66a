namespace CureWatch.Service.Board;

/// <summary>What a screen on the wall shows, to be read from across the bay.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone, for the page's own clock.</param>
/// <param name="Now">The instant.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Bays">The bays.</param>
public sealed record WallView(string Shop, string Zone, Moment Now, IReadOnlyList<TroubleView> Troubles, IReadOnlyList<WallBayView> Bays);

/// <summary>A bay on the wall.</summary>
/// <param name="Bay">The bay as the board shows it.</param>
/// <param name="Heading">Where its climate is heading, in a sentence.</param>
/// <param name="Course">Its climate, drawn.</param>
/// <param name="Hours">The same in numbers.</param>
/// <param name="Warnings">What stands against it and the cars in it, the most urgent first.</param>
/// <param name="MoreWarnings">How many more stand than are shown.</param>
public sealed record WallBayView(
    BayView Bay, string Heading, string Course, IReadOnlyList<HourView> Hours, IReadOnlyList<WarningView> Warnings, int MoreWarnings);

/// <summary>A row of the table beside a chart.</summary>
/// <param name="At">The instant.</param>
/// <param name="Air">The air [°C].</param>
/// <param name="DewPoint">Its dew point [°C].</param>
/// <param name="Panel">The coldest panel [°C].</param>
public sealed record HourView(Moment At, string Air, string DewPoint, string Panel);
