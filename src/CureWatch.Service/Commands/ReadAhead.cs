using System.Collections.Concurrent;

namespace CureWatch.Service.Commands;

/// <summary>Reads on a thread of its own, a little ahead of who makes something of it.</summary>
internal static class ReadAhead
{
    private const int AtOnce = 1024, MostWaiting = 8;

    /// <summary>The same items in the same order; what reading them throws is thrown where they end.</summary>
    public static IEnumerable<T> Of<T>(IEnumerable<T> items)
    {
        using var left = new CancellationTokenSource();
        using var ahead = new BlockingCollection<T[]>(MostWaiting);
        Task reading = Task.Run(() => Read(items, ahead, left.Token), CancellationToken.None);
        try
        {
            foreach (T item in ahead.GetConsumingEnumerable().SelectMany(several => several))
            {
                yield return item;
            }
        }
        finally
        {
            left.Cancel();
            reading.GetAwaiter().GetResult();
        }
    }

    private static void Read<T>(IEnumerable<T> items, BlockingCollection<T[]> ahead, CancellationToken left)
    {
        try
        {
            foreach (T[] several in items.Chunk(AtOnce).TakeWhile(_ => !left.IsCancellationRequested))
            {
                ahead.Add(several, left);
            }
        }
        catch (OperationCanceledException) when (left.IsCancellationRequested)
        {
            // Who asked has left before the end.
        }
        finally
        {
            ahead.CompleteAdding();
        }
    }
}
