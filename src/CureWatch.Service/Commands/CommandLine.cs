using System.CommandLine;

namespace CureWatch.Service.Commands;

/// <summary>The commands, and how every one of them refuses: exit 2, one line a fault on stderr, nothing on stdout.</summary>
internal static class CommandLine
{
    public static int Run(string[] args)
    {
        var root = new RootCommand("Watches the climate of a detailing bay and says when a coated car may be handed over.");
        ParseResult parsed = root.Parse(args);
        if (parsed.Errors.Count == 0)
        {
            return parsed.Invoke();
        }

        foreach (string message in parsed.Errors.Select(e => e.Message))
        {
            Console.Error.WriteLine(message.ReplaceLineEndings(" "));
        }

        return 2;
    }
}
