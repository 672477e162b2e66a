using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>What lamps have earned a coat, in words.</summary>
internal static class LampWords
{
    /// <summary>Says that a surface has to cool before anything is done on it.</summary>
    public static Sentence Of(string surface, CoolDown warm, Func<DateTimeOffset?, Sentence> clock)
    {
        var panel = new Figure.Temperature(warm.PanelC, "0");
        var limit = new Figure.Temperature(warm.LimitC, "0");
        return (warm.IsMeasured, warm.CoolFrom) switch
        {
            (true, { } at) => $"{surface} is {panel} from the lamp; work on it at {limit}, from {clock(at)} if nothing warms it.",
            (true, null) => $"{surface} is {panel} from the lamp; work on it at {limit}, switch the lamp off first.",
            (false, { } at) => $"{surface} is about {panel} from the lamp; work on it at {limit}, from {clock(at)} if nothing warms it.",
            _ => $"{surface} is about {panel} from the lamp; work on it at {limit}, switch the lamp off first.",
        };
    }

    public static Sentence Of(CoatLamp lamp)
    {
        Sentence stages = Sentence.Join(", ", lamp.Stages.Select(s => Sentence.Word(WireName<Stage>.Of(s))));
        Sentence earned = $"{lamp.CreditedMinutes:0.#} min count as {lamp.ReferenceHours:0.0#} reference hours";
        Sentence refused = Sentence.Join(", ", lamp.Refused.Select(r => (Sentence)$"{r.Minutes:0.#} {Why(r.Why)}"));
        return $"under the lamp ({stages}): {earned}{(refused.IsNone ? Sentence.None : $"; not counted: {refused}")}";
    }

    private static Sentence Why(LampVerdict verdict) => verdict switch
    {
        LampVerdict.RampUp => $"colder than the sheet's band",
        LampVerdict.TooHot => $"hotter than the sheet's band",
        LampVerdict.TooEarly => $"too soon after levelling",
        LampVerdict.TooLong => $"beyond the sheet's longest time",
        _ => $"without a reading of the surface itself",
    };
}
