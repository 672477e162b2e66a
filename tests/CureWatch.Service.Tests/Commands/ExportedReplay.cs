using System.Text.Json;

namespace CureWatch.Service.Tests.Commands;

/// <summary>A job as its journal replays it, and as its export does.</summary>
internal static class ExportedReplay
{
    /// <summary>Exports a job and replays both.</summary>
    public static (JsonElement FromJournal, JsonElement FromFiles) Of(string target, string data, string job)
    {
        Assert.Equal(0, Invocation.Of("export", "--data", data, "--job", job, target).ExitCode);
        Invocation journal = Invocation.Of("replay", "--data", data, "--job", job, "--json");
        Invocation files = Invocation.Of(
            "replay", "--config", Path.Combine(target, "config"), "--readings", Path.Combine(target, "readings.csv"),
            "--job", Path.Combine(target, "job.json"), "--json");
        Assert.Empty(files.Error);
        Assert.Equal(journal.ExitCode, files.ExitCode);
        return (JsonElement.Parse(journal.Output), JsonElement.Parse(files.Output));
    }

    public static void AssertSame(JsonElement expected, JsonElement actual, params string[] keys) =>
        Assert.All(keys, key => Assert.Equal(expected.GetProperty(key).GetRawText(), actual.GetProperty(key).GetRawText()));
}
