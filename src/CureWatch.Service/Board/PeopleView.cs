using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What the page about people shows.</summary>
/// <param name="Shop">The shop.</param>
/// <param name="People">Who may sign in, and as what.</param>
/// <param name="Devices">What is signed in, the newest first.</param>
/// <param name="Faults">Why something was not done.</param>
/// <param name="Refused">What was filled into the form of that; its PIN is typed anew.</param>
public sealed record PeopleView(
    string Shop, IReadOnlyList<(string Name, string Role)> People, IReadOnlyList<DeviceView> Devices, IReadOnlyList<Sentence> Faults, RefusedForm Refused);

/// <summary>A browser or a screen that is signed in.</summary>
/// <param name="Id">By which it is signed out.</param>
/// <param name="Name">Whose it is, or what the screen is called.</param>
/// <param name="Role">As what.</param>
/// <param name="From">The address it came from.</param>
/// <param name="Since">Since when, on the shop's wall clock.</param>
/// <param name="Until">Until when.</param>
/// <param name="IsOwn">Whether it is the one that is looked with.</param>
public sealed record DeviceView(string Id, string Name, string Role, string From, string Since, string Until, bool IsOwn);
