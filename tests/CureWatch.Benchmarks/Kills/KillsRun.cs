using System.Globalization;
using CureWatch.Benchmarks.Power;

namespace CureWatch.Benchmarks.Kills;

/// <summary>SIGKILL at random moments, of the service under load, with its own broker and with an external one, and of the demo through its day. Prints the counts.</summary>
internal static class KillsRun
{
    public const string Verb = "kills";

    private const int UsualKills = 50;
    private const int UsualSeed = 1;
    private const int KillsOfARound = 25;
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
        "embedded" or "external" => ServiceAsync(part, kills, seed),
        "demo" => DemoAsync(kills, seed),
        _ => throw new ArgumentException($"part {part}: expected one of {string.Join(", ", Parts)}"),
    };

    /// <summary>In rounds, each with a shop and a broker of its own: a journal that only grew would soon take longer to check than its service lives.</summary>
    private static async Task<bool> ServiceAsync(string part, int kills, int seed)
    {
        bool isAsItShouldBe = true;
        int acknowledged = 0, lost = 0, twice = 0;
        for (int before = 0; before < kills; before += KillsOfARound)
        {
            using BrokerProcess? broker = part == "external" ? await BrokerProcess.StartAsync() : null;
            if (part == "external" && broker is null)
            {
                Console.WriteLine("external broker: no mosquitto on this machine");
                return false;
            }

            int round = Math.Min(KillsOfARound, kills - before);
            using var service = new ServiceKills(seed + before, LongestUnderLoad, broker?.Port);
            Findings findings = await service.RunAsync(round, alsoDuringStart: true);
            Console.WriteLine(
                $"{part} broker: kills {before + 1} to {before + round}, {service.DuringStart} of them before it was ready; verify found damage after {service.Damaged}");
            isAsItShouldBe = Print(findings.Lines, [.. findings.Faults]) && service.Damaged == 0 && isAsItShouldBe;
            acknowledged += findings.Ledger.Acknowledged.Count();
            lost += findings.Lost.Count;
            twice += findings.Twice.Count;
        }

        Console.WriteLine($"{part} broker: {kills} kills in all; acknowledged {acknowledged}, lost {lost}, applied twice {twice}");
        return isAsItShouldBe;
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
