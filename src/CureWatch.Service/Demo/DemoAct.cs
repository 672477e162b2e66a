namespace CureWatch.Service.Demo;

/// <summary>Something that somebody, or a probe, does in the demo at an instant.</summary>
internal abstract record DemoAct(DateTimeOffset At)
{
    /// <summary>A probe publishes what it measures.</summary>
    /// <param name="At">When.</param>
    /// <param name="Probe">The probe.</param>
    /// <param name="Sample">What it measures.</param>
    internal sealed record Published(DateTimeOffset At, DemoProbe Probe, DemoSample Sample) : DemoAct(At)
    {
        public string Payload => Probe.PayloadOf(At, Sample);
    }

    /// <summary>A car is booked in on the board.</summary>
    /// <param name="At">When.</param>
    /// <param name="Job">The job.</param>
    /// <param name="Body">The job as JSON.</param>
    internal sealed record BookedIn(DateTimeOffset At, string Job, string Body) : DemoAct(At);

    /// <summary>A person taps.</summary>
    /// <param name="At">When it is told.</param>
    /// <param name="Bay">The bay of the push-button.</param>
    /// <param name="Job">The job.</param>
    /// <param name="Id">The tap's id.</param>
    /// <param name="Payload">The tap as JSON, with its job.</param>
    internal sealed record Tapped(DateTimeOffset At, string Bay, string Job, string Id, string Payload) : DemoAct(At);

    /// <summary>A car is handed over on the board.</summary>
    /// <param name="At">When.</param>
    /// <param name="Job">The job.</param>
    /// <param name="By">Who hands it over.</param>
    internal sealed record HandedOver(DateTimeOffset At, string Job, string By) : DemoAct(At)
    {
        public string Body => $$"""{"by":"{{By}}"}""";
    }
}
