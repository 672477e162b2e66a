using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Demo;

/// <summary>What is still to come: the acts of the day that the journal does not hold yet, and what people do about warnings.</summary>
internal sealed class DemoScript(DemoDay day) : IDisposable
{
    private readonly IEnumerator<DemoAct> _day = day.Acts().GetEnumerator();
    private readonly PriorityQueue<DemoAct.Tapped, DateTimeOffset> _answers = new();
    private DemoAct? _next;

    /// <summary>Takes the next act.</summary>
    public DemoAct Take(Register register)
    {
        DemoAct act = Peek(register);
        if (_answers.TryPeek(out DemoAct.Tapped? answer, out _) && answer == act)
        {
            _ = _answers.Dequeue();
        }
        else
        {
            _next = null;
        }

        return act;
    }

    /// <summary>The next act; after a restart, the first one that did not come into the journal before.</summary>
    public DemoAct Peek(Register register)
    {
        while (_next is null || IsJournalled(register, _next))
        {
            _ = _day.MoveNext();
            _next = _day.Current;
        }

        return _answers.TryPeek(out DemoAct.Tapped? answer, out DateTimeOffset at) && at <= _next.At ? answer : _next;
    }

    /// <summary>Lets people hear a warning; one they have acted on already moves nobody.</summary>
    public void Hear(HeardWarning warning, Register register)
    {
        if (Technician.AnswerTo(warning) is { } answer
            && !IsJournalled(register, answer)
            && _answers.UnorderedItems.All(a => a.Element != answer))
        {
            _answers.Enqueue(answer, answer.At);
        }
    }

    public void Dispose() => _day.Dispose();

    private static bool IsJournalled(Register register, DemoAct act) => register.Shop is { } shop && act switch
    {
        DemoAct.Published a => LastOf(shop.Bays[a.Probe.Bay], a.Probe.Id) >= a.At,
        DemoAct.BookedIn a => shop.Find(a.Job) is not null,
        DemoAct.Tapped a => shop.Find(a.Job)?.Told.Any(t => t.Id == a.Id) == true,
        DemoAct.HandedOver a => shop.Find(a.Job)?.LeftAt is not null,
        _ => false,
    };

    private static DateTimeOffset? LastOf(BayState bay, string probe)
    {
        Readings.ProbeLog log = bay.Logs[bay.IndexOf(probe)];
        return log.Air.Count > 0 ? log.Air.Last.At : log.Panel.Count > 0 ? log.Panel.Last.At : null;
    }
}
