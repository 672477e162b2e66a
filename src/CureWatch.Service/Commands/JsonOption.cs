using System.CommandLine;

namespace CureWatch.Service.Commands;

/// <summary>The option that asks for one JSON document on stdout.</summary>
internal static class JsonOption
{
    public static Option<bool> Create() => new("--json") { Description = "one JSON document instead of words" };
}
