using CureWatch.Service.Pump;
using Quartz;

namespace CureWatch.Service.Alarms;

/// <summary>Wakes the pump, and decides nothing: what is due, and whether it still is, the shop's state says.</summary>
[DisallowConcurrentExecution]
internal sealed class WakeJob(Inbox inbox) : IJob
{
    public static readonly JobKey Key = new("wake");

    public ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken) =>
        inbox.PostAsync(new Arrival.Wake(), cancellationToken);
}
