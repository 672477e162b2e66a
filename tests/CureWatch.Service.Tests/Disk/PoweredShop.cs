using System.Globalization;
using System.Text;
using CureWatch.Benchmarks.Kills;
using CureWatch.Benchmarks.Power;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Disk;

/// <summary>
/// A shop whose power goes again and again under load: probes and a technician send what was not acknowledged again, and know what was.
/// </summary>
internal sealed class PoweredShop : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private static readonly string[] Acts = ["applied", "levelled", "wetted", "dried"];

    private readonly LoadedShop _shop = new();
    private readonly Ledger _ledger = new();
    private readonly FakeTimeProvider _clock = new(Begin);
    private readonly Random _random;
    private readonly List<(string Key, Func<Arrival> Arrival)> _open = [];
    private readonly List<string> _broken = [];
    private int _round;
    private long _booked;
    private bool _hadBook;

    public PoweredShop(int seed, IDisk disk) => (_random, Disk) = (new Random(seed), disk);

    public IDisk Disk { get; }

    public FakeTimeProvider Clock => _clock;

    /// <summary>How much was not taken yet.</summary>
    public int Unanswered => _open.Count;

    /// <summary>How often the book was further behind than it had said, or was not what it had been.</summary>
    public int BookLosses { get; private set; }

    /// <summary>Lets the power go in the middle of a call, a random number of calls from here: at a start, in a day, at a stop.</summary>
    public async Task CutAsync(PowerCutDisk disk)
    {
        disk.CutAfter(_random.Next(1, 150));
        if (await DayAsync(rounds: 12) is { } refusal && !disk.IsDark)
        {
            _broken.Add(refusal);
        }

        disk.Cut();
        disk.Restore();
        if (Disk.Exists(Life.Journal))
        {
            _broken.AddRange(JournalReader.DamagesIn(Disk, Life.Journal).Select(d => d.ToString()));
        }
    }

    /// <summary>Lets the power go when the book has just said that it has everything.</summary>
    public async Task CutBookedAsync(PowerCutDisk disk)
    {
        using (Life life = Start())
        {
            for (int i = 0; i < 3; i++)
            {
                await RoundAsync(life);
            }

            _booked = await LevelAsync(life);
            disk.Cut();
        }

        disk.Restore();
    }

    /// <summary>A start, some rounds of work, and a stop.</summary>
    /// <returns>Why it could not start; null where it could.</returns>
    public async Task<string?> DayAsync(int rounds)
    {
        try
        {
            using Life life = Start();
            for (int i = 0; i < rounds; i++)
            {
                await RoundAsync(life);
            }

            await life.StopAsync();
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return e.Message;
        }
    }

    /// <summary>A last start: everything open is told, and it is stopped as it should be.</summary>
    public async Task<IReadOnlyList<string>> SettleAsync()
    {
        try
        {
            using (Life life = Start())
            {
                for (int i = 0; i < 100 && _open.Count > 0; i++)
                {
                    await SendAsync(life);
                    _clock.Advance(TimeSpan.FromSeconds(5));
                }

                _broken.AddRange(_open.Select(o => $"never taken: {o.Key}"));

                await life.StopAsync();
            }

            using (Life level = Start())
            {
                await LevelAsync(level);
                await level.StopAsync();
            }
        }
        catch (IOException e)
        {
            return [.. _broken, e.Message]; // a disk that lies may leave nothing to start from
        }

        Audit audit = Audit.Of(Disk, Life.Data);
        BookPosition position = BookContent.Position(Disk, Life.Book);
        IReadOnlyList<string> rebuilt = BookContent.Rebuilt(Disk, "/rebuilt", Audit.Read(Disk, Life.Data), position.Sequence);
        var findings = new Findings(
            audit,
            _ledger,
            new HeardWarnings(),
            ExitCode: 0,
            BookBehind: audit.Recovery.End.Last - position.Sequence,
            IsBookRight: rebuilt.SequenceEqual(BookContent.In(Disk, Life.Book)));
        return [.. _broken, .. findings.Faults];
    }

    public int Acknowledged(string kind) => _ledger.Acknowledged.Count(a => a.StartsWith(kind, StringComparison.Ordinal));

    public void Dispose() => _shop.Dispose();

    public Life Start()
    {
        var life = new Life(Disk, _shop.Config, _clock);
        if (_hadBook && (life.Opening is not BookOpening.Found found || found.Position.Sequence < _booked))
        {
            BookLosses++;
        }

        _hadBook = true;
        return life;
    }

    /// <summary>A minute of work, more or less, and what was not taken before.</summary>
    public async Task RoundAsync(Life life)
    {
        _clock.Advance(TimeSpan.FromSeconds(_random.Next(1, 40)));
        DateTimeOffset now = _clock.GetUtcNow();
        foreach (string bay in LoadedShop.Bays[..2])
        {
            double airC = _random.Next(12, 25), humidityPct = _random.Next(40, 95);
            Open(Audit.KeyOf(bay, "air-0", now), () => new Arrival.Reading(new Entry.Reading(bay, "air-0", now, airC, humidityPct, null)));
            Open(Audit.KeyOf(bay, "panel", now), () => new Arrival.Reading(new Entry.Reading(bay, "panel", now, airC - 4, null, null)));
        }

        string job = $"job-{_round / 8}";
        if (_round % 8 == 0)
        {
            string json = $$"""{"job":"{{job}}","bay":"bay-{{_round / 8 % 2}}","car":"grey","surfaces":[{"surface":"bonnet","material":"steel","product":"paint-oxide-demo"}]}""";
            Open(Audit.KeyOfJob(job), () => new Arrival.JobStart("job", Encoding.UTF8.GetBytes(json)));
        }

        string id = _round.ToString(CultureInfo.InvariantCulture), at = now.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        string tap = $$"""{"id":"{{id}}","at":"{{at}}","did":"{{Acts[_round % Acts.Length]}}","by":"Alex"}""";
        Open(Audit.KeyOfTap(job, id), () => new Arrival.Tap("tap", job, Encoding.UTF8.GetBytes(tap)));
        if (_round % 24 == 23)
        {
            Open(Audit.KeyOfDeparture(job), () => new Arrival.HandOver(job, "Alex", "made for a test"));
        }

        _round++;
        await SendAsync(life);
        if (_round % 3 == 0)
        {
            await LookUpAsync(life);
        }
    }

    private void Open(string key, Func<Arrival> arrival) => _open.Add((key, arrival));

    private async Task SendAsync(Life life)
    {
        var sent = new List<(string Key, Func<Arrival> Arrival, Task<Answer> Answered)>();
        foreach ((string key, Func<Arrival> make) in _open)
        {
            Arrival arrival = make();
            _ledger.Sending(key);
            await life.Inbox.PostAsync(arrival);
            sent.Add((key, make, arrival.Answered));
        }

        _open.Clear();
        foreach ((string key, Func<Arrival> make, Task<Answer> answered) in sent)
        {
            switch (await answered)
            {
                case Answer.Stored or Answer.Repeated:
                    _ledger.Acknowledge(key);
                    break;
                case Answer.NotStored or Answer.NoSuchJob:
                    Open(key, make);
                    break;
                case var other:
                    _ledger.Refused.Enqueue($"{key}: {other}");
                    break;
            }
        }
    }

    /// <summary>What the book answers about taps came from its file, so it has to be in it after any cut.</summary>
    private async Task LookUpAsync(Life life)
    {
        if (await life.AskBookAsync(b => b.TapsOf($"job-{(_round - 1) / 8}")) is BookAnswer<IReadOnlyList<BookedTap>>.Told { Value: [.., var last] })
        {
            _booked = Math.Max(_booked, last.Number);
        }
    }

    /// <returns>How far the book is: as far as the rest.</returns>
    private static async Task<long> LevelAsync(Life life)
    {
        while (true)
        {
            if (await life.AskBookAsync(b => b.Position) is BookAnswer<BookPosition>.Told { Value: var position }
                && position.Sequence >= life.Latest.Register.Sequence)
            {
                return position.Sequence;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(5), TimeProvider.System, TestContext.Current.CancellationToken);
        }
    }
}
