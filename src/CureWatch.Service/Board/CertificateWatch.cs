using CureWatch.Service.Certificates;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Board;

/// <summary>Tells that what the board shows by HTTPS ends soon: nothing else does before no phone opens it any more.</summary>
internal sealed class CertificateWatch(IServerCertificate shown, Troubles troubles, TimeProvider clock) : BackgroundService
{
    /// <summary>Source (choice): what is renewed by itself is so by then, and whoever is on holiday comes back.</summary>
    public static readonly TimeSpan Ahead = TimeSpan.FromDays(14);

    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(10);

    /// <summary>Looks how long it is good for.</summary>
    public void Look()
    {
        var until = new DateTimeOffset(shown.Now().TargetCertificate.NotAfter.ToUniversalTime(), TimeSpan.Zero);
        if (until - clock.GetUtcNow() < Ahead)
        {
            troubles.Raise(WarningKind.CertificateTrouble, $"it is good until {UtcText.Of(until)}");
        }
        else
        {
            troubles.Clear(WarningKind.CertificateTrouble);
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(LookEvery, clock);
        do
        {
            Look();
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
