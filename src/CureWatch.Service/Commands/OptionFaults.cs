using System.CommandLine;
using System.CommandLine.Parsing;

namespace CureWatch.Service.Commands;

/// <summary>Says in one line a fault what is wrong with the options: where, what was seen, what is allowed.</summary>
internal static class OptionFaults
{
    public static IReadOnlyList<string> In(ParseResult parsed) =>
        [.. Strays(parsed)
            .Concat(parsed.Errors.Where(e => e.SymbolResult is not CommandResult).Select(Describe))
            .Select(fault => fault.ReplaceLineEndings(" "))];

    /// <summary>One line in the form every fault has.</summary>
    public static string Line(string place, string seen, string allowed) => $"{place}: saw '{seen}'; allowed: {allowed}";

    /// <summary>One line where a value is missing.</summary>
    public static string Nothing(string place, string allowed) => $"{place}: saw nothing; allowed: {allowed}";

    private static string Describe(ParseError error)
    {
        if (error.SymbolResult is not OptionResult { Option: Option option } result)
        {
            return error.Message;
        }

        if (result.Tokens.Count == 0)
        {
            return Nothing(option.Name, option.Description ?? "a value");
        }

        return result.Tokens.Count == 1
            ? error.Message
            : Line(option.Name, string.Join(' ', result.Tokens.Select(t => t.Value)), "one value");
    }

    /// <summary>
    /// What the parser could not place. An unknown option and the value behind it are one fault; after an unknown command nothing else
    /// can be placed, so that is one fault too.
    /// </summary>
    private static IEnumerable<string> Strays(ParseResult parsed)
    {
        Command command = parsed.CommandResult.Command;
        string place = command is RootCommand ? "curewatch" : command.Name;
        if (command.Subcommands.Count > 0)
        {
            string names = string.Join(", ", command.Subcommands.Select(c => c.Name));
            return parsed.UnmatchedTokens is [string unknown, ..] ? [Line(place, unknown, names)]
                : parsed.Errors.Count > 0 ? [Nothing(place, names)]
                : [];
        }

        string allowed = string.Join(", ", command.Arguments.Select(a => a.Name).Concat(command.Options.Select(o => o.Name)));
        return WithTheirValues(parsed.UnmatchedTokens).Select(stray => Line(place, stray, allowed));
    }

    private static IEnumerable<string> WithTheirValues(IReadOnlyList<string> tokens)
    {
        for (int i = 0; i < tokens.Count; i++)
        {
            bool hasValue = IsOption(tokens[i]) && i + 1 < tokens.Count && !IsOption(tokens[i + 1]);
            yield return hasValue ? $"{tokens[i]} {tokens[++i]}" : tokens[i];
        }
    }

    private static bool IsOption(string token) => token.StartsWith("--", StringComparison.Ordinal);
}
