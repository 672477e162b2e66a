namespace CureWatch.Service.People;

/// <summary>Who asks: the person or screen that is signed in, or whoever is at this machine where nobody signs in.</summary>
internal sealed class Visitor
{
    private Func<bool> _isStillIn = () => true;

    /// <summary>Under what this browser is signed in; null where nobody signs in, or it is not.</summary>
    public SignedIn? SignedIn { get; private set; }

    /// <summary>Who told something; null where nobody signs in, so that what they wrote counts.</summary>
    public string? Name => SignedIn?.Name;

    /// <summary>Whether it still may do what it might when it asked.</summary>
    public bool IsStillIn => _isStillIn();

    public static Visitor Of(HttpContext context) => context.RequestServices.GetRequiredService<Visitor>();

    public bool Is(Role role) => SignedIn is null || SignedIn.Role >= role;

    /// <summary>The door knows it.</summary>
    /// <param name="signedIn">Under what; null where it is nobody known.</param>
    /// <param name="isStillIn">Whether it still is, whenever that is asked.</param>
    public void KnownAs(SignedIn? signedIn, Func<bool> isStillIn) => (SignedIn, _isStillIn) = (signedIn, isStillIn);
}
