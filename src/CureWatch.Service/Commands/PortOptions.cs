using System.CommandLine;

namespace CureWatch.Service.Commands;

/// <summary>The options that choose ports.</summary>
internal static class PortOptions
{
    public static Option<int?> Board() =>
        InvariantNumber.OptionalWhole("--port", "port of the board (0 for any that is free)", 0, ushort.MaxValue);

    public static Option<int?> Mqtt() =>
        InvariantNumber.OptionalWhole("--mqtt-port", "port of the embedded broker (0 for any that is free)", 0, ushort.MaxValue);
}
