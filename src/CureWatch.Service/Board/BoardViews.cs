using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.Documents;
using CureWatch.Units;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts a look at the shop into words.</summary>
internal sealed class BoardViews(Look look, BackupHealth backup)
{
    /// <summary>A broker is told to be away only so long after it went, and quick probes are silent before. Source (choice): its delay, a keep-alive and the longest pause between two tries.</summary>
    private static readonly TimeSpan ToldAfter = TimeSpan.FromSeconds(90);

    private readonly ShopClock _clock = new(look.Shop.Plan.Hours.Zone, look.At);

    public static BoardView Of(Look look, BackupHealth backup) => new BoardViews(look, backup).Board();

    private BoardView Board()
    {
        var cars = new CarViews(look, _clock);
        (CarView View, string[] Bays)[] here = [.. look.Here.Select(j => (cars.Of(j), look.BaysOf(j).ToArray()))];
        return new BoardView(
            look.Shop.Plan.Shop,
            _clock.Zone.Id,
            _clock.Of(look.At),
            TroubleViews.Of(look),
            [.. look.OpenWarnings.Where(w => !IsOvertaken(w.Warning)).Select(w => Of(w.Number, w.Warning))],
            [.. look.Shop.Plan.Bays.Select(b => Of(BayReport.Of(look.Shop, b.Bay), [.. here.Where(c => c.Bays.Contains(b.Bay)).Select(c => c.View)]))],
            [.. here.Where(c => !c.Bays.Any(look.Shop.Plan.Bays.Select(b => b.Bay).Contains)).Select(c => c.View)],
            backup.IsWanted ? new BackupView(_clock.Of(backup.Newest?.At)) : null);
    }

    /// <summary>Probes that fell silent when the broker went are one trouble, which is told.</summary>
    private bool IsOvertaken(Warning warning) => look.Shop.IsOvertaken(warning.Subject)
        || (warning.Subject.Kind == WarningKind.ProbeSilent && look.Troubles.Any(t => t.Kind == WarningKind.BrokerTrouble && t.Since - ToldAfter <= warning.RaisedAt));

    private WarningView Of(int number, Warning warning)
    {
        AlarmRule rule = AlarmRule.Of(warning.Subject.Kind);
        Subject subject = warning.Subject;
        Sentence?[] about =
        [
            subject.Bay is { } bay ? Sentence.Named(bay) : null,
            subject.Probe is { } probe ? (Sentence)$"probe {probe}" : null,
            subject.Job is { } job ? Sentence.Named(look.Shop.Find(job)?.Job.Car ?? job) : null,
            BoardWords.Coat(warning.Surface, subject.Layer > 0 ? subject.Layer : null, subject.Section > 0 ? subject.Section : null),
        ];
        return new WarningView(
            number,
            Tones.Of(rule),
            BoardWords.Of(subject.Kind),
            Sentence.Join(", ", about.OfType<Sentence>().Where(a => !a.IsNone)),
            _clock.Of(warning.RaisedAt),
            warning.Detail ?? rule.Cause,
            rule.Consequence,
            rule.Action,
            Cautions.Beside(subject));
    }

    private BayView Of(BayReport bay, IReadOnlyList<CarView> cars) => new(
        bay.Plan.Bay, [.. bay.Airs.Select(a => Of(bay, a))], [.. bay.Probes.Select(p => Of(p, bay.Zone))], cars, NightViews.Of(look.Shop, bay.Plan.Bay));

    private AirView Of(BayReport bay, AirReport air)
    {
        if (air.Climate is not { } climate)
        {
            bool hasProbe = bay.Probes.Any(p => Measures(p, air.Place));
            return new AirView(BoardWords.Of(air.Place), Tone.Unknown, hasProbe ? (Sentence)$"No air probe is heard" : $"No air probe here", null, null, []);
        }

        (Tone tone, Sentence word) = climate.Judge(SheetLimits.UsualSpreadMinK) switch
        {
            Verdict.Wet => (Tone.Act, (Sentence)$"Wet: water condenses on the coldest panel"),
            Verdict.Marginal => (Tone.Soon, (Sentence)$"Close: less than {new Figure.Difference(SheetLimits.UsualSpreadMinK, "0.#")} above condensation"),
            Verdict.Dry => (Tone.Fine, (Sentence)$"Dry"),
            _ => (Tone.Unknown, (Sentence)$"Spread unknown: a panel probe is missing"),
        };
        if (!bay.Probes.Any(p => Measures(p, air.Place) && p is { State: ProbeState.Heard, Refused: null or { Why: Disbelief.LampNear } }))
        {
            bool isHeard = bay.Probes.Any(p => Measures(p, air.Place) && p.State == ProbeState.Heard);
            (tone, word) = (Tone.Unknown, isHeard ? (Sentence)$"Stale: the air probe is not believed" : $"Stale: the air probe is silent");
        }

        string panel = air.IsPanelMeasured ? "Coldest panel" : "Coldest panel, not measured";
        return new AirView(BoardWords.Of(air.Place), tone, word, _clock.Of(air.MeasuredAt > _clock.Now ? _clock.Now : air.MeasuredAt), climate.SpreadKelvins,
        [
            ("Air", Degrees(climate.Air)),
            ("Humidity", $"{climate.Humidity.Percent:0} %"),
            (climate.FrostPoint is null ? "Dew point" : "Frost point", Degrees(climate.Condensation)),
            (panel, climate.Panel is { } coldest ? Degrees(coldest) : $"not known"),
        ],
        air.Doubt is { } doubt ? (Sentence)$"{ChanceWords.Of(doubt.CondensationChance)} that the coldest panel is wet, by what the probes' sheets promise" : null);
    }

    private static bool Measures(ProbeReport probe, Place place) =>
        probe.Mount.Probe.Measures == Readings.Measures.Air && PlaceAir.Of(probe.Mount.Place) == place;

    private ProbeView Of(ProbeReport probe, TimeZoneInfo zone)
    {
        (Tone tone, Sentence word) = probe.State switch
        {
            ProbeState.Heard => (Tone.Fine, (Sentence)$"heard"),
            ProbeState.Silent when probe.HeardAt is null => (Tone.Unknown, (Sentence)$"never heard"),
            ProbeState.Silent => (Tone.Unknown, (Sentence)$"silent, last heard"),
            _ => (Tone.Info, (Sentence)$"awaited"),
        };
        if (probe.Refused is { } refused)
        {
            (tone, word) = (refused.Why == Disbelief.LampNear ? Tone.Soon : Tone.Unknown, $"not believed since {_clock.Of(refused.Since).Text}: {BeliefWords.Of(refused.Why)}; last believed");
        }

        if (probe.ClockOffBySeconds is { } seconds)
        {
            Sentence off = ShopClock.Length(TimeSpan.FromSeconds(seconds).Duration());
            (tone, word) = (tone == Tone.Fine ? Tone.Soon : tone, seconds > 0 ? (Sentence)$"its clock is {off} ahead, {word}" : $"its clock is {off} behind, {word}");
        }

        Sentence[] values =
        [
            .. probe.Air is { } air ? [Degrees(Celsius.FromKelvins(air.Kelvins)), $"{air.HumidityPct:0} %"] : Array.Empty<Sentence>(),
            .. probe.Panel is { } panel ? [$"panel {Degrees(Celsius.FromKelvins(panel.Kelvins))}"] : Array.Empty<Sentence>(),
        ];
        return new ProbeView(probe.Mount.Probe.Id, tone, word, _clock.Of(probe.HeardAt), Sentence.Join(", ", values), DriftWords.Of(probe, zone));
    }

    private static Sentence Degrees(Celsius celsius) => Sentence.Of(new Figure.Temperature(celsius.Degrees, "0.0"));
}
