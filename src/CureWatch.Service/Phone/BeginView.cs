using CureWatch.Service.Board;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>The form that starts a car with a thumb.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Bay">The bay the car is in.</param>
/// <param name="Car">The car, as it was put in.</param>
/// <param name="Promised">The pick-up time, as it was put in.</param>
/// <param name="Rows">The surfaces offered; those at the end have no name yet.</param>
/// <param name="Like">Cars whose surfaces can be taken over: their jobs and names.</param>
/// <param name="Form">What the form of the board offers: products, materials, places, cautions.</param>
/// <param name="Faults">What cannot be used.</param>
public sealed record BeginView(
    Frame Frame,
    string Bay,
    string Car,
    string Promised,
    IReadOnlyList<PickRow> Rows,
    IReadOnlyList<(string Job, string Name)> Like,
    StartView Form,
    IReadOnlyList<Sentence> Faults)
{
    /// <summary>The surfaces of the car that is taken over that have more products than the form tells.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];
}

/// <summary>A surface that can be picked.</summary>
/// <param name="Row">What the form says of it.</param>
/// <param name="IsPicked">Whether it is to be coated.</param>
/// <param name="IsNamed">Whether it has a name, and only has to be picked.</param>
/// <param name="HasOver">Whether a product over it can be chosen.</param>
public sealed record PickRow(StartRow Row, bool IsPicked, bool IsNamed, bool HasOver);
