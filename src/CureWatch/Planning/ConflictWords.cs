using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Says who harms whom, and until when.</summary>
public static class ConflictWords
{
    /// <summary>Says a conflict.</summary>
    /// <param name="conflict">The conflict.</param>
    /// <param name="hours">The shop's hours and its present.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(WorkConflict conflict, ShopHours hours)
    {
        Sentence when = conflict.Work.From <= hours.Now ? (Sentence)$"until {hours.Clock(conflict.Work.To)}" : hours.Span(conflict.Work.From, conflict.Work.To);
        Sentence until = conflict.OpenUntil is { } open ? (Sentence)$"until {hours.Clock(open)}"
            : conflict.Harm == Harm.Silicone ? (Sentence)$"until its last layer is touch-dry" : $"without an end that anybody can tell";
        return $"{Of(conflict.Work.Work).Capital()} in {conflict.Work.Bay} {when} harms {Sentence.Names(", ", conflict.Surfaces)} of {conflict.Job} in {conflict.Bay}: {Of(conflict.Harm)} {until}.";
    }

    /// <summary>Says a work.</summary>
    /// <param name="work">The work.</param>
    /// <returns>Words that fit into a sentence.</returns>
    public static Sentence Of(HarmfulWork work) => work switch
    {
        HarmfulWork.Washing => $"washing",
        HarmfulWork.Compounding => $"compounding",
        HarmfulWork.Sanding => $"sanding",
        HarmfulWork.SiliconeSpray => $"silicone spray",
        HarmfulWork.DoorsOpen => $"doors open",
        HarmfulWork.Lamp => $"a lamp",
        HarmfulWork.Heater => $"a heater",
        _ => $"the door open for a car",
    };

    private static Sentence Of(Harm harm) => harm switch
    {
        Harm.Dust => $"dust sinks into it",
        Harm.Silicone => $"silicone makes craters in it",
        Harm.Water => $"it has to stay dry",
        Harm.Weather => $"it has to stay dry, warm and free of dust",
        _ => $"its solvent vapour catches fire on what is hot",
    };
}
