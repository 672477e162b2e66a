using System.Globalization;
using CureWatch.Benchmarks.Power;

namespace CureWatch.Benchmarks.Kills;

/// <summary>SIGKILL at random moments, of the service under load, with its own broker and with an external one, and of the demo through its day. Prints the counts.</summary>
internal static class KillsRun
{
    public const string Verb = "kills";

    private const int UsualKills = 50;
    private const int UsualSeed = 1;
    private static readonly string[] Parts = ["embedded", "external", "demo"];
    private static readonly TimeSpan LongestUnderLoad = TimeSpan.FromSeconds(3);

    /// <param name="options">How often, the seed of the moments, and one part alone (embedded, external, demo); all may be left out.</param>
    /// <returns>1 where anything is not as it should be.</returns>
    public static async Task<int> RunAsync(string[] options)
    {
        int kills = options.Length > 0 ? int.Parse(options[0], CultureInfo.InvariantCulture) : UsualKills;
        int seed = options.Length > 1 ? int.Parse(options[1], CultureInfo.InvariantCulture) : UsualSeed;
        bool isAsItShouldBe = true;
        foreach (string part in options.Length > 2 ? options[2..] : Parts)
        {
            isAsItShouldBe = await PartAsync(part, kills, seed) && isAsItShouldBe;
        }

        return isAsItShouldBe ? 0 : 1;
    }

    private static Task<bool> PartAsync(string part, int kills, int seed) => part switch
    {
        "embedded" => ServiceAsync("embedded broker", kills, seed, null),
        "external" => ExternalAsync(kills, seed),
        "demo" => DemoAsync(kills, seed),
        _ => throw new ArgumentException($"part {part}: expected one of {string.Join(", ", Parts)}"),
    };

    private static async Task<bool> ExternalAsync(int kills, int seed)
    {
        using BrokerProcess? broker = await BrokerProcess.StartAsync();
        if (broker is null)
        {
            Console.WriteLine("external broker: no mosquitto on this machine");
            return false;
        }

        return await ServiceAsync("external broker", kills, seed, broker.Port);
    }

    private static async Task<bool> ServiceAsync(string name, int kills, int seed, int? brokerPort)
    {
        using var service = new ServiceKills(seed, LongestUnderLoad, brokerPort);
        Findings findings = await service.RunAsync(kills, alsoDuringStart: true);
        Console.WriteLine($"{name}: {kills} kills, {service.DuringStart} of them before it was ready; verify found damage after {service.Damaged}");
        return Print(findings.Lines, [.. findings.Faults]) && service.Damaged == 0;
    }

    private static async Task<bool> DemoAsync(int kills, int seed)
    {
        using var demo = new DemoKills(seed);
        await demo.RunAsync(kills);
        return Print(demo.Lines, [.. demo.Faults]);
    }

    private static bool Print(IEnumerable<string> lines, IReadOnlyList<string> faults)
    {
        foreach (string line in lines.Concat(faults.Take(20)))
        {
            Console.WriteLine($"  {line}");
        }

        Console.WriteLine(faults.Count == 0 ? "  as it should be" : $"  {faults.Count} FAULTS");
        return faults.Count == 0;
    }
}
