using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Demo;

/// <summary>What happened in a shop, told from its journal: cars, taps, windows, warnings, and how the handover turned.</summary>
internal sealed class Timeline
{
    /// <summary>How often the pick-up is held against the promise. Source (choice): a ruling takes a millisecond.</summary>
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(5);

    /// <summary>A slip that is worth a call. Source (choice).</summary>
    private static readonly TimeSpan LeastSlip = TimeSpan.FromMinutes(15);

    private readonly List<(DateTimeOffset At, string Text)> _lines = [];
    private readonly HashSet<string> _late = [];
    private DateTimeOffset _look;

    private Timeline()
    {
    }

    /// <summary>Tells a journal.</summary>
    /// <param name="steps">Its entries as they are folded.</param>
    /// <returns>The lines in the order of what they tell, in the shop's own time.</returns>
    public static IEnumerable<string> Of(IEnumerable<Step> steps)
    {
        var timeline = new Timeline();
        Register before = Register.Blank;
        foreach (Step step in steps)
        {
            timeline.LookUntil(step.At, before);
            timeline.Tell(step);
            before = step.After;
        }

        if (before.Shop is not { } shop)
        {
            return [];
        }

        timeline.TellWindows(shop);
        return timeline._lines.OrderBy(l => l.At).Select(l => $"{TimelineWords.Clock(l.At, shop)}  {l.Text}");
    }

    private void Tell(Step step)
    {
        foreach (ShopEvent happened in step.Happened)
        {
            if (TimelineWords.Of(happened) is { } words)
            {
                _lines.Add((happened is ShopEvent.TapTakenDown told ? told.Tap.At : step.At, words));
            }
        }
    }

    /// <summary>Looks at what the shop would have said between two entries: the same as if somebody had asked then.</summary>
    private void LookUntil(DateTimeOffset at, Register register)
    {
        if (register.Shop is not { Jobs.IsEmpty: false } shop)
        {
            _look = at;
            return;
        }

        for (; _look < at; _look += LookEvery)
        {
            Shop then = ShopFold.Take(shop, new Message.ClockReached(_look)).Shop;
            foreach (JobState job in then.JobsInOrder.Where(j => j.LeftAt is null))
            {
                Look(then, job.Job);
            }
        }
    }

    private void Look(Shop shop, Job job)
    {
        if (job.PromisedAt is not { } promisedAt || JobReport.Of(shop, job.Id) is not { Ruling.CollectFrom: { } collect } report)
        {
            return;
        }

        if (collect > promisedAt + LeastSlip && _late.Add(job.Id))
        {
            string promised = TimelineWords.Clock(promisedAt, shop);
            _lines.Add((shop.Now, $"{job.Id}: the pick-up slips to {TimelineWords.Clock(collect, shop)}, promised was {promised}{TimelineWords.OfFaults(report, shop)}"));
        }
        else if (collect <= promisedAt && _late.Remove(job.Id))
        {
            _lines.Add((shop.Now, $"{job.Id}: the pick-up is back before the promise, {TimelineWords.Clock(collect, shop)}{TimelineWords.OfFaults(report, shop)}"));
        }
    }

    private void TellWindows(Shop shop)
    {
        foreach (JobState job in shop.JobsInOrder)
        {
            JobReport report = JobReport.Of(shop, job.Job.Id);
            foreach (CoatReport coat in report.Surfaces.SelectMany(s => s.Coats))
            {
                _lines.AddRange(TimelineWords.OfWindows(job.Job.Id, coat, shop).Where(l => l.At <= shop.Now));
            }
        }
    }
}
