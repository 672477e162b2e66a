using CureWatch.Service.Pump;
using Quartz;

namespace CureWatch.Service.Alarms;

/// <summary>Registers the alarm clock.</summary>
internal static class AlarmsRegistration
{
    private static readonly TriggerKey Minute = new("minute");

    /// <param name="services">Where to register; an <see cref="Inbox"/> and a <see cref="Latest"/> have to be there.</param>
    /// <param name="clock">The only clock that decides anything.</param>
    public static IServiceCollection AddAlarms(this IServiceCollection services, TimeProvider clock) => services
        .AddQuartz(quartz => quartz
            .UseTimeProvider(clock)
            .AddJob<WakeJob>(job => job.WithIdentity(WakeJob.Key).StoreDurably())
            .AddTrigger<WakeJob>(trigger => trigger
                .WithIdentity(Minute)
                .ForJob(WakeJob.Key)
                .StartAt(clock.GetUtcNow() + TimeSpan.FromMinutes(1))
                .WithSchedule(SimpleScheduleBuilder.Create()
                    .WithInterval(TimeSpan.FromMinutes(1)).RepeatForever()
                    .WithMisfireInstruction(SimpleTriggerMisfireInstruction.FireNow))))
        .AddQuartzHostedService(o =>
        {
            o.WaitForJobsToComplete = true;
            o.AwaitApplicationStarted = false; // a start that fails is never complete, and the end would wait half a minute for it
        })
        .AddSingleton<AlarmClock>()
        .AddSingleton<IFollower>(p => p.GetRequiredService<AlarmClock>())
        .AddHostedService(p => p.GetRequiredService<AlarmClock>());
}
