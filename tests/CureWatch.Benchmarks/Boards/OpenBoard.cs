using System.Diagnostics;
using System.Net.ServerSentEvents;

namespace CureWatch.Benchmarks.Boards;

/// <summary>A board that is open in a browser, as its script behaves: it listens, and fetches its page again once something changed, once a second at most.</summary>
internal sealed class OpenBoard : IAsyncDisposable
{
    /// <summary>As in board.js.</summary>
    private static readonly TimeSpan FetchPause = TimeSpan.FromSeconds(1), OwnRefresh = TimeSpan.FromSeconds(30), Watch = TimeSpan.FromMilliseconds(500);

    private readonly CancellationTokenSource _closed = new();
    private readonly HttpClient _http;
    private readonly string _path;
    private readonly Task _open;
    private volatile bool _isChanged = true;
    private int _pages;
    private int _events;
    private long _bytes;

    public OpenBoard(Uri board, string path)
    {
        _path = path;
        _http = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 6 }) { BaseAddress = board };
        _http.DefaultRequestHeaders.Add("Accept-Encoding", "gzip, deflate, br");
        _open = Task.WhenAll(ListenAsync(_closed.Token), RefreshAsync(_closed.Token));
    }

    /// <summary>How often it fetched its page.</summary>
    public int Pages => Volatile.Read(ref _pages);

    /// <summary>What it was told.</summary>
    public int Events => Volatile.Read(ref _events);

    /// <summary>How long the pages were on the wire [bytes].</summary>
    public long Bytes => Interlocked.Read(ref _bytes);

    public async ValueTask DisposeAsync()
    {
        await _closed.CancelAsync();
        try
        {
            await _open;
        }
        catch (Exception e) when (e is OperationCanceledException or HttpRequestException or IOException)
        {
            // It was closed, which is no fault.
        }

        _http.Dispose();
        _closed.Dispose();
    }

    private async Task ListenAsync(CancellationToken closed)
    {
        using HttpResponseMessage answer = await _http.GetAsync(new Uri("/api/v1/live", UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, closed);
        answer.EnsureSuccessStatusCode();
        await using Stream stream = await answer.Content.ReadAsStreamAsync(closed);
        await foreach (SseItem<string> item in SseParser.Create(stream).EnumerateAsync(closed))
        {
            Interlocked.Increment(ref _events);
            _isChanged |= item.EventType != "clock";
        }

        throw new IOException("The stream of a board ended.");
    }

    private async Task RefreshAsync(CancellationToken closed)
    {
        long shownAt = Stopwatch.GetTimestamp();
        using var timer = new PeriodicTimer(Watch, TimeProvider.System);
        while (await timer.WaitForNextTickAsync(closed))
        {
            if (Stopwatch.GetElapsedTime(shownAt) > (_isChanged ? FetchPause : OwnRefresh))
            {
                _isChanged = false;
                byte[] page = await _http.GetByteArrayAsync(new Uri(_path, UriKind.Relative), closed);
                Interlocked.Add(ref _bytes, page.Length);
                Interlocked.Increment(ref _pages);
                shownAt = Stopwatch.GetTimestamp();
            }
        }
    }
}
