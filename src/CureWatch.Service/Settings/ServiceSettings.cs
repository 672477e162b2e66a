using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>How the service runs: what <c>curewatch.json</c> and the environment say. Read at every start, never journalled.</summary>
internal sealed record ServiceSettings(MqttSettings Mqtt, string DataFolder, BoardSettings Board, LimitSettings Limits)
{
    /// <summary>Whom it tells how it works.</summary>
    public TelemetrySettings Telemetry { get; init; } = TelemetrySettings.Nobody;

    /// <summary>What is kept beside the data folder; nothing unless somebody says so.</summary>
    public StorageSettings Storage { get; init; } = new(null, null);
}

/// <summary>Whom the service tells how it works, in measurements and samples.</summary>
/// <param name="Otlp">The collector they are sent to; null for the one that the usual variables of the environment name, if they do.</param>
/// <param name="Protocol">How they are sent there.</param>
/// <param name="Every">How often the measurements are sent.</param>
/// <param name="TraceShare">Of how many batches the way is told [fraction].</param>
/// <param name="Prometheus">Whether the measurements can be read at <c>/metrics</c>.</param>
internal sealed record TelemetrySettings(Uri? Otlp, OtlpProtocol Protocol, TimeSpan Every, double TraceShare, bool Prometheus)
{
    /// <summary>Few enough that nobody notices the work, enough to see a slow disk. Source (choice).</summary>
    public const double UsualTraceShare = 0.01;

    public static readonly TimeSpan UsualEvery = TimeSpan.FromMinutes(1);

    public static TelemetrySettings Nobody { get; } = new(null, OtlpProtocol.Http, UsualEvery, UsualTraceShare, Prometheus: false);
}

/// <summary>How measurements are sent to a collector: in protobuf, one way or the other.</summary>
internal enum OtlpProtocol
{
    Http,
    Grpc,
}

/// <summary>What is kept beside the data folder, and for how long what is in it.</summary>
/// <param name="Backup">The nightly backup; null for none.</param>
/// <param name="KeepJournal">How old the journal's segments get before they move to an archive of their own; null for ever.</param>
internal sealed record StorageSettings(BackupSettings? Backup, TimeSpan? KeepJournal);

/// <summary>The nightly backup.</summary>
/// <param name="Folder">Where the backups are kept.</param>
/// <param name="At">When, on the shop's wall clock.</param>
/// <param name="Daily">For how many days the newest of each is kept.</param>
/// <param name="Weekly">For how many weeks.</param>
/// <param name="Monthly">For how many months.</param>
internal sealed record BackupSettings(string Folder, TimeOnly At, int Daily, int Weekly, int Monthly);

/// <summary>The broker: the embedded one, or an external one where it is named.</summary>
/// <param name="Port">Port of the embedded broker; 0 for any that is free.</param>
/// <param name="Listen">Where the embedded broker listens; to the whole network only with users.</param>
/// <param name="Users">Who may connect to the embedded broker; none: whoever is on this machine.</param>
/// <param name="External">The broker to use instead of the embedded one.</param>
internal sealed record MqttSettings(int Port, Listen Listen, ImmutableArray<MqttUser> Users, ExternalBroker? External);

/// <summary>Somebody who may connect to the embedded broker.</summary>
/// <param name="User">The user name.</param>
/// <param name="Password">The password.</param>
/// <param name="Role">What they may do.</param>
/// <param name="Probes">The probes of a probe, or of a gateway: it publishes on their topics and nothing else.</param>
internal sealed record MqttUser(string User, string Password, MqttRole Role, ImmutableArray<OwnProbe> Probes)
{
    /// <summary>Without the password, wherever this ends up.</summary>
    public override string ToString() => $"{User} ({Role})";
}

/// <summary>A probe a user of the embedded broker speaks for.</summary>
/// <param name="Bay">Its bay.</param>
/// <param name="Probe">Its id.</param>
/// <param name="At">Where it is named, for whoever finds that the shop has none of that name.</param>
internal readonly record struct OwnProbe(string Bay, string Probe, SettingPlace At = default)
{
    public override string ToString() => $"{Bay}/{Probe}";
}

/// <summary>What a user of the embedded broker may do.</summary>
internal enum MqttRole
{
    /// <summary>Publish the readings of one probe, or of those named.</summary>
    Probe,

    /// <summary>Subscribe to everything, and publish taps.</summary>
    Client,
}

/// <summary>A broker that somebody else runs.</summary>
/// <param name="Host">Its host name or address.</param>
/// <param name="Port">Its port.</param>
/// <param name="Tls">Whether the connection is encrypted.</param>
/// <param name="User">Who this program is there; null for nobody.</param>
/// <param name="Password">The password; null where the broker asks for none.</param>
/// <param name="ClientId">The name under which the broker keeps what this program has missed; no other client there may have it.</param>
/// <param name="CertificateAuthorityFile">PEM file of the authority behind the broker; null for those this machine trusts.</param>
internal sealed record ExternalBroker(
    string Host, int Port, bool Tls, string? User, string? Password, string ClientId, string? CertificateAuthorityFile)
{
    /// <summary>Without the password, wherever this ends up.</summary>
    public override string ToString() => $"{Host}:{Port}";
}

/// <summary>The board: pages and HTTP interface.</summary>
/// <param name="Port">Its port; 0 for any that is free.</param>
/// <param name="Listen">Where it listens.</param>
/// <param name="Hosts">Host names it answers to besides the loopback's; needed where it listens to the whole network.</param>
internal sealed record BoardSettings(int Port, Listen Listen, ImmutableArray<string> Hosts)
{
    /// <summary>Whether people sign in; else whoever is at this machine may do everything.</summary>
    public bool IsSignedIn { get; init; } = Listen == Listen.All;

    /// <summary>Where it is opened by HTTPS besides; null for nowhere.</summary>
    public HttpsSettings? Https { get; init; }

    /// <summary>Where people open it, in links that are printed or scanned; null for wherever the page was opened that has them.</summary>
    public Uri? Address { get; init; }
}

/// <summary>The board by HTTPS.</summary>
/// <param name="Port">Its port; 0 for any that is free.</param>
/// <param name="Files">The owner's certificate; null for one of the shop's own authority.</param>
internal sealed record HttpsSettings(int Port, CertificateFiles? Files);

/// <summary>A certificate that the owner has from elsewhere, in PEM.</summary>
/// <param name="Certificate">The file of the certificate, and of those that vouch for it.</param>
/// <param name="Key">The file of its key.</param>
internal sealed record CertificateFiles(string Certificate, string Key);

/// <summary>Where a server listens.</summary>
internal enum Listen
{
    Loopback,
    All,
}

/// <summary>What a client of the embedded broker may take up.</summary>
/// <param name="PayloadBytes">Longest payload [bytes] of a reading or a tap.</param>
/// <param name="Clients">Most clients at once.</param>
/// <param name="Retained">Most retained messages of others.</param>
/// <param name="ReadingsPerSecond">How many readings of one probe are taken a second in the long run, by either broker; more wait.</param>
internal sealed record LimitSettings(
    int PayloadBytes, int Clients, int Retained, int ReadingsPerSecond = LimitSettings.UsualReadingsPerSecond)
{
    /// <summary>Far beyond any sensor, and low enough to leave the processor to others. Source (choice).</summary>
    public const int UsualReadingsPerSecond = 5_000;

    /// <summary>Up to here what is too large is read and counted by its topic; a longer packet is not read at all. Source (choice).</summary>
    private const int LeastReadBytes = 1 << 20;

    /// <summary>Longest MQTT packet [bytes], with its topic and all that goes with it.</summary>
    public int LargestPacketBytes => Math.Max(LeastReadBytes, 2 * PayloadBytes);
}
