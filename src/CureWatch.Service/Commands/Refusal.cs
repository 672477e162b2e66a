using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>How a command refuses files it cannot use: one line a fault on stderr, nothing on stdout.</summary>
internal static class Refusal
{
    public static int Of(Faults faults, TextWriter error)
    {
        foreach (Fault fault in faults.All)
        {
            error.WriteLine(fault);
        }

        return ExitCode.Unusable;
    }
}
