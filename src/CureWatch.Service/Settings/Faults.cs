namespace CureWatch.Service.Settings;

/// <summary>Every fault found so far. Readers add to it and go on, so that a person sees all of them at once.</summary>
internal sealed class Faults
{
    private readonly List<Fault> _all = [];

    public IReadOnlyList<Fault> All => _all;

    public int Count => _all.Count;

    public void Add(Fault fault) => _all.Add(fault);

    public void Add(string file, string place, string seen, string allowed) => _all.Add(new Fault(file, place, seen, allowed));
}
