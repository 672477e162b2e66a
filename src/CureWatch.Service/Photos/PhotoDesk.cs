using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Photos;

/// <summary>Keeps photos and takes them away, one at a time: reading one may take as much memory as the rest of the service.</summary>
internal sealed class PhotoDesk(PhotoShelf shelf, Inbox inbox, Latest latest, ILogger<PhotoDesk> log) : IHostedService, IDisposable
{
    /// <summary>How large a file may be that is sent [bytes]. Source (choice): three times what a phone usually takes.</summary>
    public const int MostBytes = 20 << 20;

    private readonly SemaphoreSlim _one = new(1);

    /// <summary>Keeps a photo: its picture first, then that there is one.</summary>
    /// <param name="job">The job.</param>
    /// <param name="words">What is said of it, as JSON.</param>
    /// <param name="sent">What was sent, up to <see cref="MostBytes"/>.</param>
    /// <param name="aborted">Cancelled where nobody waits any more; not once its picture is on disk.</param>
    public async Task<Answer> KeepAsync(string job, ReadOnlyMemory<byte> words, Stream sent, CancellationToken aborted)
    {
        await _one.WaitAsync(aborted).ConfigureAwait(false);
        try
        {
            using var bytes = new MemoryStream();
            await sent.CopyToAsync(bytes, aborted).ConfigureAwait(false);
            ReadOnlyMemory<byte> picture = bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
            Development development = await Task.Run(() => Darkroom.Develop(picture.Span), aborted).ConfigureAwait(false);
            return development switch
            {
                Development.Refused no => new Answer.Refused([Fault.Of(new SettingPlace("form", "/photo"), no.Seen, no.Allowed)]),
                Development.Done done => await KeepAsync(job, words, done).ConfigureAwait(false),
                _ => throw new System.Diagnostics.UnreachableException(development.GetType().Name),
            };
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Takes a photo's picture away: that first is on disk, so that a start finishes what was cut off.</summary>
    public async Task<Answer> RemoveAsync(string job, string photo, string? by)
    {
        await _one.WaitAsync().ConfigureAwait(false);
        try
        {
            Answer answer = await inbox.AskAsync(new Arrival.PhotoRemoval(job, photo, by)).ConfigureAwait(false);
            if (answer is Answer.Stored or Answer.Repeated)
            {
                RemoveUnneeded(photo);
            }

            return answer;
        }
        finally
        {
            _one.Release();
        }
    }

    public Task StartAsync(CancellationToken cancellationToken)
    {
        try
        {
            shelf.Tidy(latest.Register);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Log.NotTidied(log, e);
        }

        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public void Dispose() => _one.Dispose();

    private async Task<Answer> KeepAsync(string job, ReadOnlyMemory<byte> words, Development.Done done)
    {
        string name = PhotoShelf.NameOf(done.Jpeg);
        if (shelf.Keep(name, done.Jpeg) is { } why)
        {
            return new Answer.NotStored(why);
        }

        var picture = new Picture(name, done.Jpeg.Length, done.WidthPx, done.HeightPx);
        Answer answer = await inbox.AskAsync(new Arrival.Photo("form", job, words, picture)).ConfigureAwait(false);
        if (answer is not (Answer.Stored or Answer.Repeated))
        {
            RemoveUnneeded(name);
        }

        return answer;
    }

    /// <summary>Two cars may have the same picture.</summary>
    private void RemoveUnneeded(string name)
    {
        if (latest.Register.Jobs.Values.Any(j => j.Photos.Any(p => p.Removed is null && p.Photo.Sha256 == name)))
        {
            return;
        }

        try
        {
            shelf.Remove(name);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Log.NotTidied(log, e); // the next start does
        }
    }
}
