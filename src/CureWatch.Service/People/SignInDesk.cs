namespace CureWatch.Service.People;

/// <summary>What became of somebody who wanted to sign in.</summary>
internal abstract record Greeting
{
    private Greeting()
    {
    }

    internal sealed record Welcome(SignedIn As) : Greeting;

    /// <summary>Too many PINs were wrong.</summary>
    internal sealed record Later(TimeSpan After) : Greeting;

    /// <summary>Too many people ask at once: theirs was not looked at.</summary>
    internal sealed record Busy(TimeSpan After) : Greeting;

    /// <summary>No such name, or not their PIN: which, is not said.</summary>
    internal sealed record Wrong : Greeting;
}

/// <summary>Signs people and screens in.</summary>
internal sealed class SignInDesk(Staff staff, Pins pins, Attempts attempts, TimeProvider clock) : IDisposable
{
    /// <summary>No browser keeps a cookie for longer than 400 days (RFC 6265bis, §5.5, from memory).</summary>
    public static readonly TimeSpan AsLongAsACookie = TimeSpan.FromDays(400);

    /// <summary>A working day with its overtime: nobody types a PIN in gloves twice a day. Source (choice).</summary>
    private static readonly TimeSpan WorkingDay = TimeSpan.FromHours(14);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    /// <summary>A PIN takes a tenth of a second of a processor: one at a time, so that guessing never slows the bays.</summary>
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <param name="name">What they say they are called.</param>
    /// <param name="pin">Their PIN.</param>
    /// <param name="device">The browser, where it once signed in under that name.</param>
    /// <param name="from">Its address.</param>
    public async Task<Greeting> SignInAsync(string name, string pin, string? device, string from)
    {
        if (!await _one.WaitAsync(Patience))
        {
            return new Greeting.Busy(Patience);
        }

        try
        {
            return Judge(name, pin, device, from);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Signs in somebody, or a screen, whom nobody has to ask for a PIN any more.</summary>
    public SignedIn SignIn(string name, Role role, string from)
    {
        DateTimeOffset now = clock.GetUtcNow();
        var device = new SignedIn(Secrets.New(), name, role, now, now + (role == Role.Screen ? AsLongAsACookie : WorkingDay), from);
        staff.Change(list => list.With(device));
        return device;
    }

    public void Dispose() => _one.Dispose();

    /// <summary>Whoever waited here asks again how long they have to wait: those before them may have guessed under the same name.</summary>
    private Greeting Judge(string name, string pin, string? device, string from)
    {
        Person? person = staff.List.Find(name);
        string counted = person?.Name ?? Attempts.Stranger(name);
        if (attempts.Wait(counted, device) is { } wait)
        {
            return new Greeting.Later(wait);
        }

        if (!pins.Fits(person, pin))
        {
            attempts.Failed(counted, device);
            return new Greeting.Wrong();
        }

        attempts.Succeeded(person!.Name, device);
        return new Greeting.Welcome(SignIn(person.Name, person.Role, from));
    }
}
