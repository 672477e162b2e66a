using CureWatch.Service.Commands;

namespace CureWatch.Service.Tests.Commands;

/// <summary>One command line run to its end, with what it wrote.</summary>
internal sealed record Invocation(int ExitCode, string Output, string Error)
{
    public string[] Faults => Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries);

    public static Invocation Of(string commandLine) => Of(commandLine.Split(' '));

    public static Invocation Of(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int exitCode = CommandLine.Run(args, output, error);
        return new Invocation(exitCode, output.ToString(), error.ToString());
    }

    /// <summary>Demands a refusal: exit 2, nothing on stdout, exactly these places at fault, one a line.</summary>
    public void AssertRefused(params string[] places)
    {
        Assert.Equal(2, ExitCode);
        Assert.Empty(Output);
        Assert.Equal(places, Faults.Select(f => f.Split(": saw ")[0]));
        Assert.All(Faults, f => Assert.Contains("; allowed: ", f, StringComparison.Ordinal));
    }
}
