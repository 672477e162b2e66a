using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>What people are told because of an entry, as the journal keeps it: compared in a replay, never folded.</summary>
internal static class Facts
{
    /// <summary>Whether an entry brought about any facts.</summary>
    public static bool AreIn(ImmutableArray<ShopEvent> happened)
    {
        foreach (ShopEvent e in happened)
        {
            if (e is ShopEvent.WarningRaised or ShopEvent.WarningCleared or ShopEvent.RulingTurned)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The facts an entry brought about, in order.</summary>
    public static IEnumerable<Entry> Of(Register before, ImmutableArray<ShopEvent> happened)
    {
        int warnings = before.Shop?.WarningsGiven ?? 0;
        int turns = before.Turns;
        var raised = new Dictionary<Subject, int>();
        foreach (ShopEvent e in happened)
        {
            switch (e)
            {
                case ShopEvent.WarningRaised { Warning: var warning }:
                    raised[warning.Subject] = warnings;
                    yield return Changed(warnings++, warning.Subject, isOver: false, warning.RaisedAt);
                    break;
                case ShopEvent.WarningCleared cleared:
                    int number = raised.TryGetValue(cleared.Subject, out int fresh) ? fresh : before.Shop!.Standing[cleared.Subject];
                    yield return Changed(number, cleared.Subject, isOver: true, cleared.At);
                    break;
                case ShopEvent.RulingTurned turned:
                    yield return new Entry.Ruled(turns++, turned.Job, turned.IsReady, turned.At);
                    break;
            }
        }
    }

    private static Entry.WarningChanged Changed(int number, Subject subject, bool isOver, DateTimeOffset at) =>
        new(number, WireName<WarningKind>.Of(subject.Kind), isOver, at);
}
