using System.Threading.Channels;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Demo;

/// <summary>Tells the driver that something has moved: a commit, or a warning that was heard.</summary>
internal sealed class Stirring : IFollower
{
    /// <summary>Nothing in the service takes so long unless it is stuck. Source (choice).</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly Channel<bool> _stirred = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    public void Follow(Commit commit) => Stir();

    public void Stir() => _stirred.Writer.TryWrite(true);

    /// <summary>Waits until nothing is waited for, looking again whenever something has moved.</summary>
    /// <param name="awaited">What is waited for; null for nothing.</param>
    /// <param name="cancelled">Ends the wait.</param>
    /// <exception cref="TimeoutException">Nothing moved for too long.</exception>
    public async Task UntilNothingAsync(Func<string?> awaited, CancellationToken cancelled)
    {
        while (awaited() is { } what)
        {
            try
            {
                Task<bool> stirred = _stirred.Reader.ReadAsync(cancelled).AsTask();
                _ = await stirred.WaitAsync(Patience, TimeProvider.System, cancelled).ConfigureAwait(false);
            }
            catch (TimeoutException e)
            {
                throw new TimeoutException($"Waited {Patience.TotalSeconds} s for {what}.", e);
            }
        }
    }
}
