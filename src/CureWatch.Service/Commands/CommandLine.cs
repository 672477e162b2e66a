using System.CommandLine;

namespace CureWatch.Service.Commands;

/// <summary>The commands, and how every one of them refuses: exit 2, one line a fault on stderr, nothing on stdout.</summary>
internal static class CommandLine
{
    public static int Run(string[] args) => Run(args, Console.Out, Console.Error);

    public static int Run(string[] args, TextWriter output, TextWriter error)
    {
        var root = new RootCommand("Watches the climate of a detailing bay and says when a coated car may be handed over.")
        {
            RunCommand.Create(),
            DemoCommand.Create(),
            ClimateCommand.Create(),
            FitCommand.Create(),
            PassCommand.Create(),
            BacktestCommand.Create(),
            ReplayCommand.Create(),
            StartCommand.Create(),
            PromiseCommand.Create(),
            PlanCommand.Create(),
            CheckCommand.Create(),
            ConfigCommand.Create(),
            ExportCommand.Create(),
            HealthCommand.Create(),
            BackupCommand.Create(),
            RestoreCommand.Create(),
            VerifyCommand.Create(),
        };

        // The service is what runs where nobody names a command.
        args = args is [] || (args[0].StartsWith("--", StringComparison.Ordinal) && args[0] is not ("--help" or "--version"))
            ? [RunCommand.Name, .. args]
            : args;

        // No response files and no bundled letters: an argument is what the person typed, also where it begins with @ or -.
        ParseResult parsed = root.Parse(args, new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
        IReadOnlyList<string> faults = OptionFaults.In(parsed);
        foreach (string fault in faults)
        {
            error.WriteLine(fault);
        }

        // Without the parser's own handler a bug ends the process as a bug; handled, it would exit 1, which here means "the answer is no".
        return faults.Count > 0
            ? ExitCode.Unusable
            : parsed.Invoke(new InvocationConfiguration { Output = output, Error = error, EnableDefaultExceptionHandler = false });
    }
}
