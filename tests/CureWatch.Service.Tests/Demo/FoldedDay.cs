using System.Collections.Immutable;
using System.Diagnostics;
using System.Text;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Service.Demo;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Demo;

/// <summary>The demo day folded as the pump folds it, with no broker, disk or clock; Robin hears a warning as it is raised.</summary>
internal sealed class FoldedDay
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(5);

    private readonly PriorityQueue<DemoAct.Tapped, DateTimeOffset> _answers = new();

    private FoldedDay()
    {
        var faults = new Faults();
        ConfigurationFolder folder = ConfigurationFolder.Find(DemoDay.ShippedFolder, faults)!;
        Configuration configuration = Configuration.Read(folder, faults)!;
        foreach (Entry entry in Imports.Decide(Register, folder, configuration, isForced: false, faults))
        {
            Take(entry, DemoDay.Start);
        }

        Assert.Empty(faults.All);
    }

    public static FoldedDay Whole { get; } = Until(Clock(7 + 28, 0));

    /// <summary>The same day with a probe that misses no reading, up to an instant.</summary>
    public static FoldedDay HeardThroughout(string probeId, DateTimeOffset end)
    {
        DemoProbe probe = DemoProbe.All.Single(p => p.Id == probeId);
        HashSet<DateTimeOffset> told = [.. Whole.Acts.OfType<DemoAct.Published>().Where(a => a.Probe == probe).Select(a => a.At)];
        return Until(end, Readings().Where(r => !told.Contains(r.At)));

        IEnumerable<DemoAct> Readings()
        {
            var hall = new Service.Demo.Hall();
            for (int number = 0; DemoDay.Start + TimeOf(number) is var at && at <= end; number++)
            {
                yield return new DemoAct.Published(at, probe, probe.SampleOf(hall.At(TimeOf(number)), number));
            }
        }

        TimeSpan TimeOf(int number) => probe.First + (number * probe.Every);
    }

    public Register Register { get; private set; } = Register.Blank;

    public Shop Shop => Register.Shop!;

    /// <summary>What a journal would hold.</summary>
    public List<Step> Steps { get; } = [];

    public List<(DateTimeOffset At, ShopEvent Event)> Happened { get; } = [];

    /// <summary>How the grey estate stood every few minutes.</summary>
    public List<(DateTimeOffset At, Ruling Ruling)> Rulings { get; } = [];

    public List<DemoAct> Acts { get; } = [];

    public IEnumerable<Warning> Warnings(WarningKind kind) => Shop.Warnings.Values.Where(w => w.Subject.Kind == kind);

    /// <summary>A time on the shop's wall; hours past 24 are the next morning's.</summary>
    public static DateTimeOffset Clock(int hour, int minute) => DemoDay.Start.AddHours(hour - 7).AddMinutes(minute);

    public static FoldedDay Until(DateTimeOffset end) => Until(end, []);

    private static FoldedDay Until(DateTimeOffset end, IEnumerable<DemoAct> more)
    {
        var day = new FoldedDay();
        DateTimeOffset look = DemoDay.Start;
        foreach (DemoAct act in new DemoDay(DemoDay.ShippedFolder).Acts().TakeWhile(a => a.At <= end).Concat(more).OrderBy(a => a.At))
        {
            while (day._answers.TryPeek(out DemoAct.Tapped? answer, out DateTimeOffset at) && at <= act.At)
            {
                day.Do(day._answers.Dequeue());
            }

            for (; look <= act.At; look += LookEvery)
            {
                day.Look(look);
            }

            day.Do(act);
        }

        return day;
    }

    private void Look(DateTimeOffset at)
    {
        Take(new Entry.ClockReached(), at);
        if (Shop.Find(DemoDay.MainJob) is not null)
        {
            Rulings.Add((at, JobReport.Of(Shop, DemoDay.MainJob).Ruling));
        }
    }

    private void Do(DemoAct act)
    {
        Acts.Add(act);
        foreach (Entry entry in EntriesOf(act))
        {
            Take(entry, act.At);
        }
    }

    private ImmutableArray<Entry> EntriesOf(DemoAct act)
    {
        switch (act)
        {
            case DemoAct.Published { Probe: var probe, Sample: var sample }:
                bool isPanel = sample.HumidityPct is null;
                double told = probe.Words == PayloadForm.WeatherPost ? Told(sample) : sample.TemperatureC;
                double? airC = isPanel ? null : told, panelC = isPanel ? told : null;
                return [new Entry.Reading(probe.Bay, probe.Id, act.At, airC, sample.HumidityPct, panelC)];
            case DemoAct.BookedIn booking:
                return Stored(Requests.OnJobStart(Register, new Arrival.JobStart("demo", Encoding.UTF8.GetBytes(booking.Body)), act.At));
            case DemoAct.Tapped tapped:
                return Stored(Requests.OnTap(Register, new Arrival.Tap("demo", null, Encoding.UTF8.GetBytes(tapped.Payload)), act.At));
            case DemoAct.HandedOver left:
                return Stored(Requests.OnHandOver(Register, new Arrival.HandOver(left.Job, left.By, null), act.At));
            default:
                throw new UnreachableException(act.GetType().Name);
        }
    }

    /// <summary>What is left of a temperature [°C] that is told in tenths of a °F.</summary>
    private static double Told(DemoSample sample) => (Math.Round((sample.TemperatureC * 1.8) + 32, 1) - 32) / 1.8;

    private static ImmutableArray<Entry> Stored(Decision decision)
    {
        Assert.IsType<Answer.Stored>(decision.Answer);
        return decision.Entries;
    }

    private void Take(Entry entry, DateTimeOffset at)
    {
        (Register, ImmutableArray<ShopEvent> happened) = RegisterFold.Take(Register, Register.Sequence + 1, at, entry);
        Steps.Add(new Step(Register.Sequence, at, entry, happened, Register));
        foreach (ShopEvent e in happened)
        {
            Happened.Add((Shop.Now, e));
            if (e is ShopEvent.WarningRaised { Warning: var raised } && Technician.AnswerTo(Heard(raised)) is { } answer)
            {
                _answers.Enqueue(answer, answer.At);
            }
        }
    }

    private static HeardWarning Heard(Warning raised) =>
        new(WireName<WarningKind>.Of(raised.Subject.Kind), raised.Subject.Job, raised.Surface, raised.RaisedAt);
}
