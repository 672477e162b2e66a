namespace CureWatch.Service.Pump;

/// <summary>What waits of one sender, in the order it came; behind it, what there was no room for. Guarded by the <see cref="Inbox"/>.</summary>
/// <param name="allowance">How fast it may be emptied; null for as fast as the pump goes.</param>
internal sealed class Lane(Allowance? allowance)
{
    private readonly Queue<Arrival> _arrivals = new();
    private readonly LinkedList<Held> _held = new();

    public int Count => _arrivals.Count;

    public bool HoldsBack => _held.Count > 0;

    public Allowance? Allowance => allowance;

    /// <summary>Whether it waits for room together with other lanes.</summary>
    public bool IsInQueue { get; set; }

    public Held First => _held.First!.Value;

    public void Enqueue(Arrival arrival) => _arrivals.Enqueue(arrival);

    public Arrival Dequeue() => _arrivals.Dequeue();

    public LinkedListNode<Held> Hold(Arrival arrival) => _held.AddLast(new Held(arrival));

    public void LetGo() => _held.RemoveFirst();

    /// <returns>Whether it was still held back.</returns>
    public bool Withdraw(LinkedListNode<Held> held)
    {
        if (held.List is null)
        {
            return false;
        }

        _held.Remove(held);
        return true;
    }

    /// <summary>An arrival that there was no room for, and its sender who waits.</summary>
    internal sealed class Held(Arrival arrival)
    {
        private readonly TaskCompletionSource _admitted = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Arrival Arrival => arrival;

        public Task Admitted => _admitted.Task;

        public void Admit() => _admitted.TrySetResult();

        public void Cancel(CancellationToken cancelled) => _admitted.TrySetCanceled(cancelled);
    }
}
