using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>Holds the facts in a journal against what this program makes of its inputs.</summary>
internal sealed class FactCheck
{
    private readonly List<Entry> _expected = [];
    private readonly HashSet<Entry> _open = [];

    /// <summary>Facts in the journal that this program would not have told.</summary>
    public List<Entry> Strange { get; } = [];

    /// <summary>Facts that follow from the inputs and are not in the journal: nobody was told yet.</summary>
    public IReadOnlyList<Entry> Untold => [.. _expected.Where(_open.Contains)];

    public void Expect(IEnumerable<Entry> facts)
    {
        foreach (Entry fact in facts)
        {
            _expected.Add(fact);
            _open.Add(fact);
        }
    }

    public void Met(Entry entry)
    {
        if (entry is Entry.WarningChanged or Entry.Ruled && !_open.Remove(entry))
        {
            Strange.Add(entry);
        }
    }
}
