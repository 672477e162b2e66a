using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>The keys of <c>curewatch.json</c>, for variables that stand for one: what is below it, and how its text is read.</summary>
internal abstract record ServiceKeys
{
    private ServiceKeys()
    {
    }

    /// <summary>The whole document.</summary>
    public static Section All { get; } = Of(
        ("mqtt", Of(
            ("port", new Number()),
            ("listen", new Text()),
            ("users", new Entries(Of(
                ("user", new Text()), ("password", new Text()), ("role", new Text()), ("bay", new Text()), ("probe", new Text()),
                ("probes", new Entries(new Text()))))),
            ("external", Of(
                ("host", new Text()),
                ("port", new Number()),
                ("tls", new Flag()),
                ("user", new Text()),
                ("password", new Text()),
                ("clientId", new Text()),
                ("certificateAuthorityFile", new Text()))))),
        ("data", Of(("folder", new Text()))),
        ("board", Of(
            ("port", new Number()),
            ("listen", new Text()),
            ("hosts", new Entries(new Text())),
            ("address", new Text()),
            ("signIn", new Flag()),
            ("https", Of(("port", new Number()), ("certificateFile", new Text()), ("keyFile", new Text()))))),
        ("limits", Of(("payloadBytes", new Number()), ("clients", new Number()), ("retained", new Number()), ("readingsPerSecond", new Number()))),
        ("telemetry", Of(
            ("otlp", new Text()), ("protocol", new Text()), ("every", new Text()), ("traceShare", new Number()), ("prometheus", new Flag()))),
        ("storage", Of(
            ("backup", Of(
                ("folder", new Text()), ("at", new Text()), ("daily", new Number()), ("weekly", new Number()), ("monthly", new Number()))),
            ("keepJournal", new Text()))));

    private static Section Of(params (string Key, ServiceKeys Below)[] keys) => new([.. keys]);

    /// <summary>An object.</summary>
    internal sealed record Section(ImmutableArray<(string Key, ServiceKeys Below)> Keys) : ServiceKeys;

    /// <summary>An array.</summary>
    internal sealed record Entries(ServiceKeys Entry) : ServiceKeys;

    internal sealed record Text : ServiceKeys;

    internal sealed record Number : ServiceKeys;

    internal sealed record Flag : ServiceKeys;
}
