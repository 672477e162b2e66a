using System.Text;
using CureWatch.Curing;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Fuzz.Targets;

/// <summary>What a person reports, for the car that is being coated.</summary>
internal sealed class TapTarget : FuzzTarget
{
    public override string Name => "tap";

    public override IEnumerable<byte[]> Seeds => Texts.Select(Encoding.UTF8.GetBytes);

    protected override (long Fixed, long PerByte) Allowance => (12_000_000, 8_000);

    private static string[] Texts =>
    [
        """{"job":"job-1","id":"t1","at":"2026-03-02T07:59:00Z","surface":"bonnet","did":"applied","layer":1,"section":2,"startedAt":"2026-03-02T07:58:00Z","by":"Robin"}""",
        """{"job":"job-1","id":"t2","at":"2026-03-02T07:59:00Z","reportedAt":"2026-03-02T08:00:00Z","surface":"bonnet","did":"levelled","layer":1,"section":1,"corrects":"t0"}""",
        """{"job":"job-1","at":"2026-03-02T07:59:00Z","surface":"bonnet","did":"measured","panelC":3.4,"note":"from the yard\nfrost"}""",
        """{"job":"job-1","at":"2026-03-02T07:59:00Z","surface":"bonnet","did":"inspected","found":"high-spot"}""",
        """{"job":"job-1","at":"2026-03-02T07:59:00Z","did":"moved","toBay":"bay-2"}""",
        """{"job":"job-1","at":"2026-03-02T07:59:00Z","did":"wetted"}""",
        """{"job":"job-9","at":"2026-03-02T07:59:00Z","did":"dried"}""",
    ];

    protected override void TryOn(byte[] input)
    {
        Decision decision = Requests.OnTap(FuzzShop.Register, new Arrival.Tap(Name, null, input), FuzzShop.Now);
        switch (decision.Answer)
        {
            case Answer.Refused refused:
                FaultPromise.Check(isRead: false, refused.Faults);
                BrokenPromiseException.Unless(decision.Entries.IsEmpty, "a refused tap is stored");
                break;
            case Answer.NoSuchJob or Answer.Repeated:
                BrokenPromiseException.Unless(decision.Entries.IsEmpty, "what changes nothing is stored");
                break;
            case Answer.Stored:
                Tap tap = ((Entry.Tapped)decision.Entries.Single()).Tap;
                BrokenPromiseException.Unless(tap.At <= FuzzShop.Now && tap.ReportedAt <= FuzzShop.Now && !(tap.StartedAt > tap.At), "a tap of the future");
                BrokenPromiseException.Unless(tap.PanelC is null or (>= -60 and <= 200), "a panel beyond its range");
                BrokenPromiseException.Unless(tap is { Layer: null or (>= 1 and <= 9), Section: null or (>= 1 and <= 99) }, "a place beyond its range");
                FuzzJournal.CheckRoundTrip(decision.Entries);
                _ = FuzzShop.Take(decision.Entries, FuzzShop.Now);
                break;
            default:
                throw new BrokenPromiseException($"the answer is {decision.Answer}");
        }
    }
}
