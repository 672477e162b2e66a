using System.Text.RegularExpressions;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>What every fault promises to whoever has to mend what they wrote.</summary>
internal static partial class FaultPromise
{
    /// <summary>Holds a reader to it: nothing without a fault, nothing with one, and every fault says where, what and what else.</summary>
    public static void Check(bool isRead, IEnumerable<Fault> faults)
    {
        bool isRefused = false;
        foreach (Fault fault in faults)
        {
            isRefused = true;
            BrokenPromiseException.Unless(Place().IsMatch(fault.Place), $"'{fault.Place}' is no place");
            BrokenPromiseException.Unless(fault.Seen.Length > 0 && fault.Allowed.Length > 0, $"it leaves something out: {fault}");
            BrokenPromiseException.Unless(!fault.ToString().Any(char.IsControl), $"it is not one line: {fault}");
        }

        BrokenPromiseException.Unless(isRead != isRefused, isRead ? "it was taken with a fault" : "it was refused without a fault");
    }

    /// <summary>A JSON Pointer, cut where it is long; a line, perhaps a column of it; or a variable.</summary>
    [GeneratedRegex(@"\A(|/.*|line [1-9][0-9]*(, column [a-z_]+)?|further lines|file|(?i:CUREWATCH)__.*)\z")]
    private static partial Regex Place();
}
