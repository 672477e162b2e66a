using System.CommandLine;
using System.CommandLine.Parsing;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Options that take a duration, written <c>[d.]hh:mm:ss</c> with fractions of a second allowed.</summary>
/// <remarks>
/// .NET's own forms also take "5" for five days and "1:30" for an hour and a half; a person who writes those meant something else.
/// </remarks>
internal static class InvariantDuration
{
    /// <summary>A duration that has to be given.</summary>
    /// <param name="name">The option's name, dashes included.</param>
    /// <param name="what">What the duration is, for help and refusals.</param>
    /// <param name="most">Longest duration allowed.</param>
    /// <param name="aboveZero">Whether zero is refused.</param>
    public static Option<TimeSpan> Required(string name, string what, TimeSpan most, bool aboveZero = false)
    {
        Option<TimeSpan> option = Optional(name, what, most, aboveZero);
        option.Required = true;
        return option;
    }

    /// <summary>A duration that is zero where it is left out; see <see cref="Required"/>.</summary>
    public static Option<TimeSpan> Optional(string name, string what, TimeSpan most, bool aboveZero = false)
    {
        string description = $"{what}, {(aboveZero ? "above zero, up to" : "zero to")} {most:c}, written {Durations.Form}";
        return new Option<TimeSpan>(name)
        {
            Description = description,
            HelpName = "duration",
            CustomParser = result => Read(result, description, most, aboveZero),
        };
    }

    private static TimeSpan Read(ArgumentResult result, string description, TimeSpan most, bool aboveZero)
    {
        string text = result.Tokens[0].Value;
        if (Durations.Find(text) is { } duration && duration <= most && !(aboveZero && duration == TimeSpan.Zero))
        {
            return duration;
        }

        result.AddError(OptionFaults.Line(((OptionResult)result.Parent!).Option.Name, text, description));
        return default;
    }
}
