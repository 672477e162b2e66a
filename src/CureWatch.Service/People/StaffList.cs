using System.Collections.Immutable;

namespace CureWatch.Service.People;

/// <summary>Somebody who may sign in.</summary>
/// <param name="Name">The name they sign in with, and that their taps carry.</param>
/// <param name="Role">Technician or manager.</param>
/// <param name="PinHash">What their PIN is checked against.</param>
internal sealed record Person(string Name, Role Role, string PinHash)
{
    /// <summary>How they want to be spoken to; null where they never said.</summary>
    public TongueChoice? Tongue { get; init; }

    /// <summary>Without the hash, wherever this ends up.</summary>
    public override string ToString() => $"{Name} ({Role})";
}

/// <summary>A browser that is signed in, or a screen that was paired.</summary>
/// <param name="Id">By which its cookie names it; nobody else can make such a cookie.</param>
/// <param name="Name">The person's name, or what the screen was called.</param>
/// <param name="Role">What it may do.</param>
/// <param name="Since">When it was signed in.</param>
/// <param name="Until">When it has to do so again.</param>
/// <param name="From">The address it came from.</param>
internal sealed record SignedIn(string Id, string Name, Role Role, DateTimeOffset Since, DateTimeOffset Until, string From);

/// <summary>Everybody who may sign in, and everything that is.</summary>
internal sealed record StaffList(ImmutableArray<Person> People, ImmutableArray<SignedIn> SignedIn)
{
    public static StaffList Nobody { get; } = new([], []);

    public bool HasManager => People.Any(p => p.Role == Role.Manager);

    /// <summary>Who has a name, in capitals or not.</summary>
    public Person? Find(string name) => People.FirstOrDefault(p => p.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Puts somebody on the list, or in the place of who has that name; whatever is signed in under it has to do so again.</summary>
    public StaffList With(Person person)
    {
        StaffList others = Without(person.Name);
        return others with { People = [.. others.People, person] };
    }

    /// <summary>Takes somebody off the list, and signs them out everywhere.</summary>
    public StaffList Without(string name) => new(
        [.. People.Where(p => !p.Name.Equals(name, StringComparison.OrdinalIgnoreCase))],
        [.. SignedIn.Where(s => s.Role == Role.Screen || !s.Name.Equals(name, StringComparison.OrdinalIgnoreCase))]);

    /// <summary>Signs in a browser or a screen, and forgets those whose time is over.</summary>
    public StaffList With(SignedIn device) => this with { SignedIn = [.. SignedIn.Where(s => s.Until > device.Since), device] };

    /// <summary>Keeps how somebody wants to be spoken to, wherever they are signed in; a screen is nobody.</summary>
    public StaffList Spoken(string name, TongueChoice choice) => this with { People = [.. People.Select(p => p.Name == name ? p with { Tongue = choice } : p)] };

    public StaffList SignedOut(string id) => this with { SignedIn = [.. SignedIn.Where(s => s.Id != id)] };
}
