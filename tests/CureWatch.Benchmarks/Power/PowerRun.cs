using System.Globalization;
using CureWatch.Benchmarks.Kills;
using CureWatch.Service.Settings;

namespace CureWatch.Benchmarks.Power;

/// <summary>Emulated power cuts under load, with the embedded broker and with an external one. Prints the counts.</summary>
internal static class PowerRun
{
    public const string Verb = "power-cuts";

    private const int UsualCuts = 200;
    private const int UsualSeed = 1;
    private static readonly string[] Parts = ["embedded", "external"];

    /// <param name="options">How often, the seed, and one broker alone (embedded, external); all may be left out.</param>
    /// <returns>1 where anything is not as it should be.</returns>
    public static async Task<int> RunAsync(string[] options)
    {
        int cuts = options.Length > 0 ? int.Parse(options[0], CultureInfo.InvariantCulture) : UsualCuts;
        int seed = options.Length > 1 ? int.Parse(options[1], CultureInfo.InvariantCulture) : UsualSeed;
        bool isAsItShouldBe = true;
        foreach (string part in options.Length > 2 ? options[2..] : Parts)
        {
            isAsItShouldBe = await PartAsync(part, cuts, seed) && isAsItShouldBe;
        }

        return isAsItShouldBe ? 0 : 1;
    }

    private static Task<bool> PartAsync(string part, int cuts, int seed) => part switch
    {
        "embedded" => RunAsync("embedded broker", cuts, seed, null),
        "external" => ExternalAsync(cuts, seed),
        _ => throw new ArgumentException($"part {part}: expected one of {string.Join(", ", Parts)}"),
    };

    private static async Task<bool> ExternalAsync(int cuts, int seed)
    {
        using BrokerProcess? broker = await BrokerProcess.StartAsync();
        if (broker is null)
        {
            Console.WriteLine("external broker: no mosquitto on this machine");
            return false;
        }

        return await RunAsync("external broker", cuts, seed, new ExternalBroker("127.0.0.1", broker.Port, false, null, null, "curewatch", null));
    }

    private static async Task<bool> RunAsync(string name, int cuts, int seed, ExternalBroker? broker)
    {
        using var power = new PowerCuts(seed, broker);
        Findings findings = await power.RunAsync(cuts);
        string[] faults = [.. findings.Faults, .. power.Damages];
        Console.WriteLine($"{name}: {cuts} power cuts, {power.DuringStart} of them before it was ready; damaged after a cut: {power.Damages.Count}");
        foreach (string line in findings.Lines.Append($"alarm set again after a start: {power.Armed} of {power.Starts}").Concat(faults.Take(20)))
        {
            Console.WriteLine($"  {line}");
        }

        Console.WriteLine(faults.Length == 0 && power.Armed == power.Starts ? "  as it should be" : $"  {faults.Length} FAULTS");
        return faults.Length == 0 && power.Armed == power.Starts;
    }
}
