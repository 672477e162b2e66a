using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.Warnings;

namespace CureWatch.Tests.Stills;

/// <summary>What a shop made of two days.</summary>
internal sealed class StillOutcome(StillTrial trial, LivedBay truth)
{
    private readonly List<(double Hour, ShopEvent.ValueStood Stood)> _stood = [];
    private readonly Dictionary<(string Probe, Quantity What), Still> _open = [];
    private readonly List<(double Hour, string Probe)> _told = [], _noticed = [];
    private ImmutableArray<ProbeLog> _logs = [];

    public StillTrial Trial => trial;

    public int ProbeDays => 2 * (1 + (trial.HasTwin ? 1 : 0) + (trial.HasPanel ? 1 : 0));

    /// <summary>Stretches that were doubted, whether they were put back or not.</summary>
    public IEnumerable<(double Hour, ShopEvent.ValueStood Stood)> Doubted => Distinct(isSuspected: false);

    /// <summary>Stretches that were suspected, of which nobody was told.</summary>
    public IEnumerable<(double Hour, ShopEvent.ValueStood Stood)> Suspected => Distinct(isSuspected: true);

    /// <summary>Those that stay disbelieved, or speak of a proof.</summary>
    public int Kept => _logs.Sum(l => l.Standing.Stills.Count(s => s.Why != StillReason.Suspected && (s.To is not null || !s.MayBeBorneOut)));

    public int Told => _told.Count;

    /// <summary>How often people were told that a probe has not moved, or is stuck.</summary>
    public int Noticed => _noticed.Count;

    public IReadOnlyList<(double Hour, string Probe)> ToldOf => _told;

    /// <summary>Hours that were doubted for a while, and believed after all.</summary>
    public double HoursPutBack { get; private set; }

    /// <summary>Hours that were not.</summary>
    public double HoursKept { get; private set; }

    /// <summary>Hours that were suspected.</summary>
    public double HoursSuspected { get; private set; }

    /// <summary>How long after it froze it was suspected or doubted [h]; null where it never was.</summary>
    public double? SuspectedAfterHours { get; private set; }

    /// <summary>How long after it froze it was doubted for good, or put back only after it moved again [h]; null where it never was.</summary>
    public double? DelayHours { get; private set; }

    public StillReason? Why { get; private set; }

    public double? ToldAfterHours { get; private set; }

    /// <summary>How far the truth had got from what was repeated, by the mean of half an hour, until it was doubted or moved again [K or % RH].</summary>
    public double Strayed { get; private set; }

    /// <summary>The same until it moved again, whether it was doubted before or not: what would have been believed.</summary>
    public double StraysTo { get; private set; }

    /// <summary>Whether it would have been off by what matters to a coat: 1 K, or 4 % RH.</summary>
    public bool Matters => StraysTo >= (trial.What == Frozen.AirHumidity ? 4 : 1);

    public void See(double hour, ImmutableArray<ShopEvent> happened)
    {
        foreach (ShopEvent e in happened)
        {
            switch (e)
            {
                case ShopEvent.ValueStood stood:
                    _stood.Add((hour, stood));
                    _open[(stood.Probe, stood.Still.What)] = stood.Still;
                    HoursKept += stood.Still.To is { } to ? (to.At - stood.Still.From.At).TotalHours : 0;
                    break;
                case ShopEvent.ValueMoved moved when _open.Remove((moved.Probe, moved.What), out Still? still) && still.To is null:
                    double hours = (TestShop.At(hour) - still.From.At).TotalHours;
                    if (still.Why == StillReason.Suspected)
                    {
                        HoursSuspected += hours;
                        break;
                    }

                    (HoursPutBack, HoursKept) = moved.IsBorneOut ? (HoursPutBack + hours, HoursKept) : (HoursPutBack, HoursKept + hours);
                    break;
                case ShopEvent.WarningRaised { Warning.Subject: { Kind: WarningKind.ProbeStandsStill or WarningKind.ProbeStuck, Probe: { } noticed } }:
                    _noticed.Add((hour, noticed));
                    break;
                case ShopEvent.WarningRaised { Warning.Subject: { Kind: WarningKind.ProbeImplausible, Probe: { } probe } }:
                    _told.Add((hour, probe));
                    break;
            }
        }
    }

    public void End(Shop shop)
    {
        _logs = shop.Bays["bay-1"].Logs;
        if (trial.What == Frozen.Nothing)
        {
            return;
        }

        string probe = trial.What == Frozen.Panel ? "panel-1" : "air-1";
        Quantity[] whats = trial.What is Frozen.Air ? [Quantity.Temperature, Quantity.Humidity] : trial.What == Frozen.AirHumidity ? [Quantity.Humidity] : [Quantity.Temperature];
        double end = trial.FromHour + trial.ForHours;
        foreach ((double hour, ShopEvent.ValueStood stood) in _stood)
        {
            // The value may have lasted for a while before it froze.
            if (stood.Probe == probe && whats.Contains(stood.Still.What) && hour >= trial.FromHour && hour <= end + (2 * trial.Every.TotalHours))
            {
                SuspectedAfterHours ??= hour - trial.FromHour;
                if (stood.Still.Why == StillReason.Suspected)
                {
                    continue;
                }

                DelayHours = hour - trial.FromHour;
                Why = stood.Still.Why;
                break;
            }
        }

        ToldAfterHours = _told.Where(t => t.Probe == probe && t.Hour >= trial.FromHour && t.Hour <= end).Select(t => (double?)(t.Hour - trial.FromHour)).FirstOrDefault();
        double until = DelayHours is { } delay && Why != StillReason.Jumped ? trial.FromHour + delay : end;
        (Strayed, StraysTo) = (FarthestUntil(until), FarthestUntil(end));
    }

    private IEnumerable<(double Hour, ShopEvent.ValueStood Stood)> Distinct(bool isSuspected) => _stood
        .Where(s => s.Stood.Still.Why == StillReason.Suspected == isSuspected)
        .DistinctBy(s => (s.Stood.Probe, s.Stood.Still.What, s.Stood.Still.From.At));

    private double FarthestUntil(double until)
    {
        double farthest = 0;
        for (double hour = trial.FromHour; hour <= Math.Min(until, LivedBay.Hours) - 0.5; hour += 0.1)
        {
            farthest = Math.Max(farthest, Math.Abs(Enumerable.Range(0, 30).Average(minute => Measured(hour + (minute / 60.0))) - Measured(trial.FromHour)));
        }

        return farthest;
    }

    private double Measured(double hour)
    {
        (double c, double pct, double panelC) = truth.At(hour);
        return trial.What switch { Frozen.Panel => panelC, Frozen.AirHumidity => pct, _ => c };
    }
}
