namespace CureWatch.Service.People;

/// <summary>
/// Who may use an endpoint. One that says nothing is the manager's, so that a new one is shut until somebody has thought about it.
/// </summary>
/// <param name="Least">The least of the roles that may; null for everybody, signed in or not.</param>
internal sealed record Lets(Role? Least);

/// <summary>Says who may use an endpoint.</summary>
internal static class LetsConventions
{
    public static T LetsEverybody<T>(this T endpoint)
        where T : IEndpointConventionBuilder => endpoint.WithMetadata(new Lets((Role?)null));

    public static T LetsScreens<T>(this T endpoint)
        where T : IEndpointConventionBuilder => endpoint.WithMetadata(new Lets(Role.Screen));

    public static T LetsTechnicians<T>(this T endpoint)
        where T : IEndpointConventionBuilder => endpoint.WithMetadata(new Lets(Role.Technician));

    public static T LetsManagers<T>(this T endpoint)
        where T : IEndpointConventionBuilder => endpoint.WithMetadata(new Lets(Role.Manager));
}
