using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace CureWatch.Service.Commands;

/// <summary>Options that take a number, written with a point on every machine.</summary>
/// <remarks>The parser's own conversion follows the machine's culture and reads "1,5" as 15.</remarks>
internal static class InvariantNumber
{
    /// <summary>A number that has to be given.</summary>
    /// <param name="name">The option's name, dashes included.</param>
    /// <param name="what">What the number is, with its unit, for help and refusals.</param>
    /// <param name="least">Least value allowed.</param>
    /// <param name="most">Greatest value allowed.</param>
    /// <param name="aboveLeast">Whether the least value itself is refused.</param>
    public static Option<double> Required(string name, string what, double least, double most, bool aboveLeast = false)
    {
        string description = Describe(what, least, most, aboveLeast);
        return new Option<double>(name)
        {
            Description = description,
            HelpName = "number",
            Required = true,
            CustomParser = result => Read(result, description, least, most, aboveLeast) ?? 0,
        };
    }

    /// <summary>A number that may be left out; see <see cref="Required"/>.</summary>
    public static Option<double?> Optional(string name, string what, double least, double most, bool aboveLeast = false)
    {
        string description = Describe(what, least, most, aboveLeast);
        return new Option<double?>(name)
        {
            Description = description,
            HelpName = "number",
            CustomParser = result => Read(result, description, least, most, aboveLeast),
        };
    }

    /// <summary>A whole number that may be left out.</summary>
    public static Option<int?> OptionalWhole(string name, string what, int least, int most)
    {
        string description = Describe(what, least, most, aboveLeast: false);
        return new Option<int?>(name)
        {
            Description = description,
            HelpName = "number",
            CustomParser = result =>
            {
                string text = result.Tokens[0].Value;
                if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= least && number <= most)
                {
                    return number;
                }

                result.AddError(OptionFaults.Line(name, text, description));
                return null;
            },
        };
    }

    private static double? Read(ArgumentResult result, string description, double least, double most, bool aboveLeast)
    {
        string text = result.Tokens[0].Value;
        bool isNumber = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
            && double.IsFinite(number);
        if (isNumber && number >= least && number <= most && !(aboveLeast && number == least))
        {
            return number;
        }

        string allowed = isNumber ? description : $"a number written like 20.5: {description}";
        result.AddError(OptionFaults.Line(((OptionResult)result.Parent!).Option.Name, text, allowed));
        return null;
    }

    private static string Describe(string what, double least, double most, bool aboveLeast) =>
        aboveLeast ? $"{what}, above {least}, up to {most}" : $"{what}, {least} to {most}";
}
