using System.Text;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>A job with its taps, asked for while the shop is open.</summary>
internal sealed class JobTarget() : DocumentTarget<AskedJob>("job")
{
    public override IEnumerable<byte[]> Seeds =>
    [
        Shipped.File("example", "job.json"), Shipped.File("demo", "blue-hatch.json"),
        Encoding.UTF8.GetBytes(FuzzShop.Job.Replace("job-1", "job-2", StringComparison.Ordinal)),
    ];

    /// <summary>A car of a thousand coats may be asked for in a few hundred bytes.</summary>
    protected override (long Fixed, long PerByte) Allowance => (200_000_000, 20_000);

    protected override AskedJob? Read(byte[] input, Faults faults)
    {
        Decision decision = Requests.OnJobStart(FuzzShop.Register, new Arrival.JobStart(Name, input), FuzzShop.Now);
        if (decision.Answer is Answer.Refused refused)
        {
            refused.Faults.ToList().ForEach(faults.Add);
        }

        return decision.Answer is Answer.Refused ? null : new AskedJob(decision);
    }

    protected override void Check(AskedJob read, byte[] input)
    {
        Decision decision = read.Decision;
        BrokenPromiseException.Unless(decision.Answer is Answer.Stored or Answer.Repeated, $"the answer is {decision.Answer}");
        BrokenPromiseException.Unless(
            decision.Answer is Answer.Stored == decision.Entries.Length > 0, "a job is stored without entries, or not stored with some");
        BrokenPromiseException.Unless(
            decision.Entries.OfType<Entry.Tapped>().All(t => t.Tap.At <= FuzzShop.Now && t.Tap.ReportedAt <= FuzzShop.Now), "a tap of the future");
        BrokenPromiseException.Unless(
            decision.Entries.OfType<Entry.JobStarted>().All(j => j.Job.Surfaces.Sum(s => s.Layers * s.Sections) is >= 1 and <= 1_000), "too many coats");
        FuzzJournal.CheckRoundTrip(decision.Entries);
        _ = FuzzShop.Take(decision.Entries, FuzzShop.Now);
    }
}

/// <summary>What a job that was asked for comes to.</summary>
internal sealed record AskedJob(Decision Decision);
