using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What the form that starts a car offers, and what somebody has put into it.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone.</param>
/// <param name="Bays">The bays.</param>
/// <param name="Products">Every product's newest sheet: its id, its name, and what to take care of.</param>
/// <param name="Fits">For each of them, what its times rest on: the stage, and what of it is the sheet's and what assumption.</param>
/// <param name="Materials">The materials.</param>
/// <param name="Places">The places.</param>
/// <param name="Cautions">What to take care of with any solvent.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="JobNumber">How many jobs there were: with it, a form sent twice starts one car.</param>
/// <param name="Filled">What somebody has put in.</param>
/// <param name="Faults">What of that cannot be used.</param>
public sealed record StartView(
    string Shop,
    string Zone,
    IReadOnlyList<string> Bays,
    IReadOnlyList<(string Product, string Name, IReadOnlyList<string> Cautions)> Products,
    IReadOnlyList<(string Name, IReadOnlyList<(string Stage, Sentence Words)> Stages)> Fits,
    IReadOnlyList<string> Materials,
    IReadOnlyList<string> Places,
    string Cautions,
    IReadOnlyList<TroubleView> Troubles,
    int JobNumber,
    StartForm Filled,
    IReadOnlyList<Sentence> Faults);

/// <summary>The form that starts a car, as it was sent.</summary>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="Bay">The bay.</param>
/// <param name="Promised">The pick-up time, on the shop's wall clock.</param>
/// <param name="Arrives">When the car comes, on the shop's wall clock; empty where it is here.</param>
/// <param name="ArrivesC">How cold or warm it comes, in the degrees of the form.</param>
/// <param name="Unit">Those degrees: C or F.</param>
/// <param name="Planned">When its coating is to begin, on the shop's wall clock.</param>
/// <param name="Rows">The surfaces; a row without a name is none.</param>
public sealed record StartForm(
    string Car, string Bay, string Promised, string Arrives, string ArrivesC, string Unit, string Planned, IReadOnlyList<StartRow> Rows);

/// <summary>A surface in the form that starts a car: one product, or a second one over it.</summary>
public sealed record StartRow(string Surface, string Material, string Over, string Place, string Product, string Layers, string Then, string ThenLayers, string Sections)
{
    /// <summary>A row nobody has filled.</summary>
    public static StartRow Blank { get; } = new("", "", "", "", "", "1", "", "1", "1");

    /// <summary>The surface as people say it.</summary>
    public string Name => Curing.Surface.NameOf(Surface);
}
