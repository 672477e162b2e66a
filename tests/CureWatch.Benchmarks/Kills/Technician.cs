using System.Globalization;
using System.Net;
using System.Text;

namespace CureWatch.Benchmarks.Kills;

/// <summary>
/// Somebody who works on one car after the other and tells what they do, by push-button or on the board, again and again until it is
/// acknowledged. Every other car is told of late, with a clock that runs ahead.
/// </summary>
/// <param name="name">What their jobs begin with.</param>
/// <param name="bay">Where they work.</param>
/// <param name="hasButton">Whether they tap a push-button, by MQTT, or the board, by HTTP.</param>
/// <param name="ledger">Where what they tell is entered.</param>
internal sealed class Technician(string name, string bay, bool hasButton, Ledger ledger)
{
    private const int JobsInTheBay = 3;
    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(100);
    private static readonly TimeSpan ClockAhead = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan ToldLate = TimeSpan.FromMinutes(9);

    /// <summary>What is done to a car, in order; the last one again and again.</summary>
    private static readonly string[] Acts =
    [
        """ "surface":"bonnet","did":"applied" """, """ "surface":"bonnet","did":"levelled" """, """ "surface":"screen","did":"applied" """,
        """ "did":"wetted","note":"rain through the door" """, """ "did":"dried" """, """ "did":"inspected","found":"clear" """,
        """ "surface":"bonnet","did":"measured","panelC":19.5 """,
    ];

    private Letter? _open;
    private Letter? _before;
    private int _job = -1;
    private int _tap;

    private string Job => $"{name}-{_job}";

    /// <summary>Works until the program is gone. Each time it is back, a new car has come in.</summary>
    public async Task RunAsync(Addresses addresses, CancellationToken cancelled)
    {
        using Connected button = await Connected.ToAsync(addresses.MqttPort, $"button-{name}", cancelled);
        using var board = new HttpClient { BaseAddress = addresses.Board };
        await SettleAsync(button, board, cancelled);
        if (_before is not null)
        {
            await TellAsync(_before, button, board, cancelled); // was the last one taken? Better tell it again
        }

        foreach (Letter letter in Letters())
        {
            _open = letter;
            await SettleAsync(button, board, cancelled);
            await Task.Delay(Between, TimeProvider.System, cancelled);
        }
    }

    /// <summary>Tells what is still open, and nothing new.</summary>
    public async Task SettleAsync(Addresses addresses, CancellationToken cancelled)
    {
        using Connected button = await Connected.ToAsync(addresses.MqttPort, $"button-{name}", cancelled);
        using var board = new HttpClient { BaseAddress = addresses.Board };
        await SettleAsync(button, board, cancelled);
    }

    private async Task SettleAsync(Connected button, HttpClient board, CancellationToken cancelled)
    {
        if (_open is not null)
        {
            await TellAsync(_open, button, board, cancelled);
            (_before, _open) = (_open, null);
        }
    }

    private IEnumerable<Letter> Letters()
    {
        _job++;
        _tap = 0;
        yield return new Letter(Audit.KeyOfJob(Job), "api/v1/jobs", JobFile());
        if (_job >= JobsInTheBay)
        {
            string leaving = $"{name}-{_job - JobsInTheBay}";
            const string Despite = """{"by":"Alex","despite":"made for a test"}""";
            yield return new Letter(Audit.KeyOfDeparture(leaving), $"api/v1/jobs/{leaving}/handover", Despite);
        }

        for (; ; _tap++)
        {
            string id = $"{Job}-{_tap}", where = hasButton ? $"{LoadedShop.Root}/{bay}/tap" : $"api/v1/jobs/{Job}/taps";
            yield return new Letter(Audit.KeyOfTap(Job, id), where, TapFile(id));
        }
    }

    private string JobFile() =>
        $$"""
        {"job":"{{Job}}","bay":"{{bay}}","car":"estate of {{name}}","surfaces":[
          {"surface":"bonnet","material":"steel","product":"paint-oxide-demo","layers":2},
          {"surface":"screen","material":"glass","product":"glass-repel-demo"}]}
        """;

    private string TapFile(string id)
    {
        bool isLate = _job % 2 == 1, isApplied = _tap < Acts.Length && Acts[_tap].Contains("applied", StringComparison.Ordinal);
        DateTimeOffset now = TimeProvider.System.GetUtcNow(), at = isLate && isApplied ? now - ToldLate : isLate ? now + ClockAhead : now;
        string corrects = _tap == Acts.Length ? $""","corrects":"{Job}-{_tap - 1}" """ : "";
        string time = at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
        return $$"""{"job":"{{Job}}","id":"{{id}}","at":"{{time}}","by":"{{name}}",{{Acts[Math.Min(_tap, Acts.Length - 1)]}}{{corrects}}}""";
    }

    private async Task TellAsync(Letter letter, Connected button, HttpClient board, CancellationToken cancelled)
    {
        if (!letter.Where.StartsWith("api/", StringComparison.Ordinal))
        {
            await button.PublishAsync(letter, ledger, cancelled);
            return;
        }

        ledger.Sending(letter.Key);
        using var content = new StringContent(letter.Payload, Encoding.UTF8, "application/json");
        using HttpResponseMessage response = await board.PostAsync(new Uri(letter.Where, UriKind.Relative), content, cancelled);
        if (response.StatusCode == HttpStatusCode.ServiceUnavailable)
        {
            throw new HttpRequestException($"{letter.Where}: not taken"); // told again, like what was never answered
        }

        if (response.IsSuccessStatusCode)
        {
            ledger.Acknowledge(letter.Key);
        }
        else
        {
            ledger.Refused.Enqueue($"{letter.Where}: {(int)response.StatusCode} {await response.Content.ReadAsStringAsync(cancelled)}");
        }
    }
}
