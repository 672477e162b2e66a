using System.CommandLine;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>An option that names an instant.</summary>
internal static class InstantOption
{
    public static Option<DateTimeOffset?> Create(string name, string what) => new(name)
    {
        Description = $"{what}; {Instants.Allowed}",
        HelpName = "time",
        CustomParser = result =>
        {
            string text = result.Tokens[0].Value;
            if (Instants.TryParse(text, out DateTimeOffset instant))
            {
                return instant;
            }

            result.AddError(OptionFaults.Line(name, text, Instants.Allowed));
            return null;
        },
    };
}
