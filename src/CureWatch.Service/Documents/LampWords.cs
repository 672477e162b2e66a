using System.Globalization;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What lamps have earned a coat, in words.</summary>
internal static class LampWords
{
    /// <summary>Says that a surface has to cool before anything is done on it.</summary>
    public static string Of(string surface, CoolDown warm, Func<DateTimeOffset?, string> clock)
    {
        string panel = string.Create(CultureInfo.InvariantCulture, $"{surface} is {(warm.IsMeasured ? "" : "about ")}{warm.PanelC:0} °C from the lamp");
        string limit = string.Create(CultureInfo.InvariantCulture, $"work on it at {warm.LimitC:0} °C");
        return $"{panel}; {limit}, {(warm.CoolFrom is { } at ? $"from {clock(at)} if nothing warms it" : "switch the lamp off first")}.";
    }

    public static string Of(CoatLamp lamp)
    {
        string stages = string.Join(", ", lamp.Stages.Select(WireName<Stage>.Of));
        string earned = string.Create(CultureInfo.InvariantCulture, $"{lamp.CreditedMinutes:0.#} min count as {lamp.ReferenceHours:0.0#} reference hours");
        string refused = string.Join(", ", lamp.Refused.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Minutes:0.#} {Why(r.Why)}")));
        return $"under the lamp ({stages}): {earned}{(refused.Length > 0 ? $"; not counted: {refused}" : "")}";
    }

    private static string Why(LampVerdict verdict) => verdict switch
    {
        LampVerdict.RampUp => "colder than the sheet's band",
        LampVerdict.TooHot => "hotter than the sheet's band",
        LampVerdict.TooEarly => "too soon after levelling",
        LampVerdict.TooLong => "beyond the sheet's longest time",
        _ => "without a reading of the surface itself",
    };
}
