using System.Text;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Pump;

/// <summary>
/// What may come to a pump in some hours, in groups that arrive at one instant each: readings of any kind, early, late and again, taps and
/// corrections, jobs, departures, refusals, wake-ups. The same seed gives the same.
/// </summary>
internal sealed class AnyInputs(int seed)
{
    public const string Shop =
        """
        {"shop":"test-shop","timeZone":"Europe/Dublin","finishing":"01:15:00","bays":[
          {"bay":"bay-1","probes":[
            {"probe":"air-1","measures":"air"},{"probe":"air-2","measures":"air","every":"00:05:00"},{"probe":"panel-1","measures":"panel"}]},
          {"bay":"bay-2","probes":[{"probe":"air-1","measures":"air"}]}]}
        """;

    private const int MostInGroup = 20;

    private static readonly string[] Jobs = ["job-1", "job-1", "job-2", "job-3", "job-9"], Surfaces = ["bonnet", "roof", "nowhere"];
    private static readonly string[] Acts =
    [
        "applied", "applied", "levelled", "levelled", "flashed", "wetted", "dried", "inspected\",\"found\":\"clear",
        "reworked\",\"how\":\"re-wet", "moved\",\"toBay\":\"bay-2", "moved\",\"toBay\":\"outside",
    ];

    private readonly Random _random = new(seed);
    private readonly List<string> _told = [];
    private readonly List<Entry.Reading> _sent = [];
    private int _taps;

    /// <summary>Each group with its instant. An arrival is answered once, so that each is made when it is asked for.</summary>
    public IEnumerable<(DateTimeOffset At, IReadOnlyList<Func<Arrival>> Arrivals)> Groups(int count)
    {
        DateTimeOffset now = Journal.Entries.At;
        yield return (now, [.. EveryProbe(now), JobStart("job-1", "bay-1", 2), JobStart("job-2", "bay-2", 1)]);
        for (int i = 0; i < count; i++)
        {
            now += TimeSpan.FromSeconds(_random.Next(20) switch { 0 => _random.Next(7_200), < 6 => _random.Next(900), _ => _random.Next(90) });
            yield return (now, [.. Enumerable.Range(0, 1 + _random.Next(MostInGroup)).Select(_ => Next(now))]);
        }
    }

    /// <summary>A replay from files begins with the first reading; so does the silence of whoever has not spoken yet.</summary>
    private static IEnumerable<Func<Arrival>> EveryProbe(DateTimeOffset at) =>
    [
        () => new Arrival.Reading(new Entry.Reading("bay-1", "air-1", at, 20, 50, null)),
        () => new Arrival.Reading(new Entry.Reading("bay-1", "air-2", at, 20, 50, null)),
        () => new Arrival.Reading(new Entry.Reading("bay-1", "panel-1", at, null, null, 18)),
        () => new Arrival.Reading(new Entry.Reading("bay-2", "air-1", at, 20, 50, null)),
    ];

    private Func<Arrival> Next(DateTimeOffset now) => _random.Next(30) switch
    {
        0 => JobStart("job-3", "bay-1", 1),
        1 => HandOver(Of(Jobs), _random.Next(2) == 0 ? "it had to" : null),
        2 => () => new Arrival.Wake(),
        < 6 => Refusal(Of([Disbelief.Malformed, Disbelief.TooLarge, Disbelief.UnknownProbe]), $"place {_random.Next(3)}"),
        < 12 => Tap(now),
        _ => Reading(now),
    };

    private Func<Arrival> Reading(DateTimeOffset now)
    {
        if (_sent.Count > 0 && _random.Next(8) == 0)
        {
            Entry.Reading again = _sent[^(1 + _random.Next(Math.Min(10, _sent.Count)))];
            return () => new Arrival.Reading(again);
        }

        DateTimeOffset? at = _random.Next(6) switch
        {
            0 => null,
            1 => now.AddSeconds(_random.Next(-1_000, 130)),
            _ => now.AddMilliseconds(-_random.Next(5_000)),
        };
        bool isPanel = _random.Next(3) == 0;
        double c = 18 + (_random.Next(60) * 0.1), pct = _random.Next(15) == 0 ? 140 : 50 + _random.Next(45);
        var reading = new Entry.Reading(
            isPanel ? "bay-1" : Of(["bay-1", "bay-1", "bay-2"]), isPanel ? "panel-1" : Of(["air-1", "air-1", "air-2"]), at,
            isPanel ? null : c, isPanel ? null : pct, isPanel ? c - 6 : null);
        _sent.Add(reading);
        return () => new Arrival.Reading(reading);
    }

    private Func<Arrival> Tap(DateTimeOffset now)
    {
        string json;
        if (_told.Count > 0 && _random.Next(6) == 0)
        {
            json = Of([.. _told]);
        }
        else
        {
            DateTimeOffset at = _random.Next(3) == 0 ? now.AddSeconds(_random.Next(-7_200, 110)) : now;
            string corrects = _taps > 0 && _random.Next(6) == 0 ? $$""","corrects":"t{{_random.Next(_taps)}}" """ : "";
            string surface = _random.Next(4) == 0 ? "" : $$""","surface":"{{Of(Surfaces)}}" """;
            json = $$"""{"job":"{{Of(Jobs)}}","id":"t{{_taps++}}","at":"{{UtcText.Of(at)}}","did":"{{Of(Acts)}}"{{surface}}{{corrects}}}""";
            _told.Add(json);
        }

        return () => new Arrival.Tap("tap", null, Encoding.UTF8.GetBytes(json));
    }

    private static Func<Arrival> JobStart(string job, string bay, int layers)
    {
        string json =
            $$"""
            {"job":"{{job}}","bay":"{{bay}}","surfaces":[{"surface":"bonnet","material":"steel","product":"paint","layers":{{layers}}},
              {"surface":"roof","material":"glass","system":[{"product":"paint"},{"product":"paint","revision":1}],"sections":2}]}
            """;
        return () => new Arrival.JobStart("job", Encoding.UTF8.GetBytes(json));
    }

    private static Func<Arrival> HandOver(string job, string? despite) => () => new Arrival.HandOver(job, "Alex", despite);

    private static Func<Arrival> Refusal(Disbelief reason, string place) => () => new Arrival.Refusal(reason, place);

    private T Of<T>(T[] choices) => choices[_random.Next(choices.Length)];
}
