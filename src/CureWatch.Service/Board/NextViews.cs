using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Board;

/// <summary>
/// Puts what is next on a car into words and onto a button. The button tells what it says and not what is next once it arrives: somebody pressed
/// what was before their eyes.
/// </summary>
internal static class NextViews
{
    public static NextView? Of(ImmutableArray<ToldAct> acts, DateTimeOffset now) =>
        acts.IsEmpty ? null : Of(acts[0], now) with { Then = acts.Length > 1 ? acts[1].Text : null };

    /// <summary>Any of what is to be done, without what comes then.</summary>
    public static NextView Of(ToldAct told, DateTimeOffset now)
    {
        (NextAct act, ImmutableArray<StartReason> against) = (told.Act, told.Against);
        (string button, string did) = act.Kind switch
        {
            ActKind.Apply when !against.IsEmpty => Before(against[0]),
            ActKind.Apply => ("Applied", "applied"),
            ActKind.Level => ("Levelled", "levelled"),
            ActKind.ReWet => ("Re-wetted", "reworked:re-wet"),
            ActKind.Look => ("Looked at it, clear", "inspected:clear"),
            ActKind.Rework => ("", ""),
            _ => throw new UnreachableException($"{act.Kind}"),
        };
        return new NextView(
            told.Text,
            act.IsLate || act.Kind == ActKind.Rework ? Tone.Act : act.From > now ? Tone.Info : Tone.Soon,
            act.CanBeTold(now) && button.Length > 0 ? button : null,
            did,
            act.Surface.Id,
            act.Layer,
            against.IsEmpty ? act.Section : null, // what is done before a coat is done to the whole panel
            [.. NextJson.CautionsOf(told)],
            null);
    }

    /// <summary>What one press tells of what has to be done before a coat.</summary>
    private static (string Button, string Did) Before(StartReason reason) => reason.ToldBy switch
    {
        Did.PanelWiped => ("Wiped down", "panel-wiped"),
        Did.Dried => ("Dried", "dried"),
        Did.LampOff => ("Lamp off", "lamp-off"),
        _ => ("", ""),
    };
}
