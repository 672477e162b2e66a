using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Board;

/// <summary>
/// Puts what is next on a car into words and onto a button. The button tells what it says and not what is next once it arrives: somebody pressed
/// what was before their eyes.
/// </summary>
internal static class NextViews
{
    public static NextView? Of(ImmutableArray<ToldAct> acts, DateTimeOffset now)
    {
        if (acts.IsEmpty)
        {
            return null;
        }

        NextAct act = acts[0].Act;
        (string button, string did) = act.Kind switch
        {
            ActKind.Apply => ("Applied", "applied"),
            ActKind.Level => ("Levelled", "levelled"),
            ActKind.ReWet => ("Re-wetted", "reworked:re-wet"),
            ActKind.Look => ("Looked at it, clear", "inspected:clear"),
            ActKind.Rework => ("", ""),
            _ => throw new UnreachableException($"{act.Kind}"),
        };
        return new NextView(
            acts[0].Text,
            act.IsLate || act.Kind == ActKind.Rework ? Tone.Act : act.From > now ? Tone.Info : Tone.Soon,
            act.CanBeTold(now) && acts[0].Against.IsEmpty ? button : null,
            did,
            act.Surface.Id,
            act.Layer,
            act.Section,
            [.. NextJson.CautionsOf(acts[0])],
            acts.Length > 1 ? acts[1].Text : null);
    }
}
