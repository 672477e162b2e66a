using System.Buffers;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using CureWatch.Readings;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>Takes what comes on the shop's topics, whichever broker brought it, and hands it to the pump.</summary>
internal sealed class Reception(Inbox inbox, CatchUp catchUp, LimitSettings limits, ILogger<Reception> log)
{
    /// <summary>Most faults of a tap that are told: a push-button is set right by the first of them. Source (choice).</summary>
    private const int MostTold = 5;

    /// <summary>More different refusals of taps than this are not told; all are counted. Source (choice).</summary>
    private const int MostRefusals = 1_000;

    private readonly ConcurrentDictionary<(string Topic, string What), byte> _told = new();

    /// <summary>Takes a message. Waits only where the pump's inbox is full, so that its sender is held back.</summary>
    public async ValueTask<Receipt> TakeAsync(
        Connection connection, TopicMeaning meaning, string topic, ReadOnlySequence<byte> payload, bool isRetained, CancellationToken cancelled)
    {
        bool isTooLarge = payload.Length > limits.PayloadBytes;
        switch (meaning)
        {
            case TopicMeaning.Readings m when isTooLarge:
                return await RefuseAsync(Disbelief.TooLarge, m.Probes[0].Place, cancelled).ConfigureAwait(false);
            case TopicMeaning.Readings m:
                ReadOnlyMemory<byte> bytes = payload.IsSingleSegment ? payload.First : payload.ToArray();
                return m.Probes.Length == 1
                    ? await TakeAsync(connection, m.Probes[0], m.Probes[0].Decode(bytes.Span, isRetained), cancelled).ConfigureAwait(false)
                    : await TakeSharedAsync(connection, m.Probes, bytes, isRetained, cancelled).ConfigureAwait(false);
            case TopicMeaning.UnknownProbe m:
                return await RefuseAsync(Disbelief.UnknownProbe, m.Place, cancelled).ConfigureAwait(false);
            case TopicMeaning.Tap m when isTooLarge:
                return await RefuseAsync(Disbelief.TooLarge, PlaceOf(m), cancelled).ConfigureAwait(false);
            case TopicMeaning.Tap m when isRetained:
                if (IsNews(topic, "kept"))
                {
                    Log.KeptTapIgnored(log, topic);
                }

                return await RefuseAsync(Disbelief.RetainedTap, PlaceOf(m), cancelled).ConfigureAwait(false);
            case TopicMeaning.Tap m:
                var tap = new Arrival.Tap(topic, null, payload.ToArray(), PlaceOf(m));
                await inbox.PostAsync(tap, cancelled).ConfigureAwait(false);
                _ = TellAsync(tap);
                return new Receipt(tap.Answered, null);
            default:
                return Receipt.Nothing;
        }
    }

    /// <summary>Counts a message so large that nobody read what it was about.</summary>
    public Task RefuseUnreadAsync() => RefuseAsync(Disbelief.TooLarge, "unread", CancellationToken.None).AsTask();

    /// <summary>Counts a message that was not let in: because nobody reads its topic, or because its sender may not speak for that probe.</summary>
    public Task CountTurnedAwayAsync(TopicMeaning meaning, string topic, CancellationToken cancelled) => meaning switch
    {
        TopicMeaning.Foreign => RefuseAsync(Disbelief.UnknownProbe, topic, cancelled).AsTask(),
        TopicMeaning.UnknownProbe m => RefuseAsync(Disbelief.UnknownProbe, m.Place, cancelled).AsTask(),
        TopicMeaning.Readings m => RefuseAsync(Disbelief.NotItsSender, m.Probes[0].Place, cancelled).AsTask(),
        _ => Task.CompletedTask,
    };

    private static string PlaceOf(TopicMeaning.Tap tap) => $"{tap.Bay}/tap";

    private async ValueTask<Receipt> TakeAsync(Connection connection, ReadingDecoder probe, Decoded decoded, CancellationToken cancelled)
    {
        if (decoded.Reading is null)
        {
            return await RefuseAsync(decoded.Refusal, probe.Place, cancelled).ConfigureAwait(false);
        }

        var reading = new Arrival.Reading(decoded.Reading);
        await catchUp.PassAsync(connection, probe.Place, reading, cancelled).ConfigureAwait(false);
        return new Receipt(reading.Answered, null);
    }

    /// <summary>A message on a shared topic is refused for the probes it says something wrong about, and for all if it says nothing at all.</summary>
    private async ValueTask<Receipt> TakeSharedAsync(
        Connection connection, ImmutableArray<ReadingDecoder> probes, ReadOnlyMemory<byte> payload, bool isRetained, CancellationToken cancelled)
    {
        Decoded[] decoded = [.. probes.Select(p => p.Decode(payload.Span, isRetained))];
        bool isAboutAnyone = decoded.Any(d => !d.SaysNothing);
        Disbelief? refusal = null;
        var answers = new List<Task<Answer>>(probes.Length);
        for (int i = 0; i < probes.Length; i++)
        {
            if (!decoded[i].SaysNothing || !isAboutAnyone)
            {
                Receipt receipt = await TakeAsync(connection, probes[i], decoded[i], cancelled).ConfigureAwait(false);
                answers.Add(receipt.Answered);
                refusal ??= receipt.Refusal;
            }
        }

        return new Receipt(WorstAsync(answers), refusal);
    }

    private async ValueTask<Receipt> RefuseAsync(Disbelief reason, string place, CancellationToken cancelled)
    {
        await inbox.PostAsync(new Arrival.Refusal(reason, place), cancelled).ConfigureAwait(false);
        return Receipt.Of(reason);
    }

    /// <summary>A message may be acknowledged only if all of it is stored.</summary>
    private static async Task<Answer> WorstAsync(List<Task<Answer>> answers)
    {
        Answer[] all = await Task.WhenAll(answers).ConfigureAwait(false);
        return all.FirstOrDefault(a => a is Answer.NotStored) ?? all[0];
    }

    /// <summary>A push-button shows nobody what was wrong with its tap: the log does, once; what it saw may be another each time.</summary>
    private async Task TellAsync(Arrival.Tap tap)
    {
        switch (await tap.Answered.ConfigureAwait(false))
        {
            case Answer.Refused a when IsNews(tap.Source, string.Join(' ', a.Faults.Take(MostTold).Select(f => f.Place))):
                string more = a.Faults.Length > MostTold ? $"; and {a.Faults.Length - MostTold} faults more" : "";
                Log.TapRefused(log, string.Join("; ", a.Faults.Take(MostTold)) + more);
                break;
            case Answer.NoSuchJob a when IsNews(tap.Source, $"job {Doorkeeper.Shown(a.Job)}"):
                Log.TapOfNoJob(log, tap.Source, a.Job);
                break;
        }
    }

    private bool IsNews(string topic, string what) => _told.Count < MostRefusals && _told.TryAdd((Doorkeeper.Shown(topic), what), 0);
}
