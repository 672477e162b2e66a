using System.Globalization;
using CureWatch.Benchmarks.Harness;
using CureWatch.Benchmarks.Latency;

namespace CureWatch.Benchmarks.Boards;

/// <summary>What boards that are open cost a shop in which something changes every second: spells without them and with them by turns, on one service.</summary>
internal static class BoardsRun
{
    public const string Verb = "boards";

    private const int UsualBoards = 50;
    private const int UsualBays = 4;
    private const int UsualCoats = 12;
    private const int UsualSeconds = 60;
    private const int Pairs = 3;
    private const int FewBoards = 5;

    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(30);
    private static readonly string[] Paths = ["/", "/wall"];

    /// <param name="sizes">Boards, bays with a car each, coats of a car, seconds a spell; left out 50, 4, 12 and 60.</param>
    public static async Task RunAsync(string[] sizes)
    {
        (int boards, int bays) = (Size(sizes, 0, UsualBoards), Size(sizes, 1, UsualBays));
        (int coats, TimeSpan spell) = (Size(sizes, 2, UsualCoats), TimeSpan.FromSeconds(Size(sizes, 3, UsualSeconds)));
        using var shop = new LoadShop(bays, probesPerBay: 1);
        using Server server = await Server.CureWatchAsync(shop);
        await LoadShop.BringCarsAsync(server.Board!, bays, coats);
        using Feed feed = await Feed.ConnectAsync(server.MqttPort, shop, perSecond: 1);
        _ = await SpellAsync(server, feed, FewBoards, WarmUp);
        Console.WriteLine($"{boards} boards ({string.Join(", ", Paths)} by turns), {bays} cars of {coats} coats, a reading a second");
        Console.WriteLine("| boards | processor % | resident MB | heap MB | pages/s | bytes a page | events/s |");
        Console.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var without = new List<Spell>();
        var with = new List<Spell>();
        for (int pair = 0; pair < Pairs; pair++)
        {
            without.Add(Say(await SpellAsync(server, feed, 0, spell)));
            with.Add(Say(await SpellAsync(server, feed, boards, spell)));
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{boards} boards add {Added(s => s.ProcessorPct):0.0} % of a core and {Added(s => s.ResidentBytes) / 1e6:0} MB"));

        double Added(Func<Spell, double> of) => with.Average(of) - without.Average(of);
    }

    private static async Task<Spell> SpellAsync(Server server, Feed feed, int count, TimeSpan time)
    {
        OpenBoard[] boards = [.. Enumerable.Range(0, count).Select(i => new OpenBoard(server.Board!, Paths[i % Paths.Length]))];
        Usage before = server.Usage();
        long begun = TimeProvider.System.GetTimestamp();
        await feed.RunAsync(time);
        double seconds = TimeProvider.System.GetElapsedTime(begun).TotalSeconds;
        Usage after = server.Usage();
        var spell = new Spell(
            count,
            100 * (after.Processor - before.Processor).TotalSeconds / seconds,
            after.ResidentBytes,
            after.HeapBytes,
            boards.Sum(b => b.Pages) / seconds,
            boards.Sum(b => b.Bytes) / Math.Max(1, boards.Sum(b => b.Pages)),
            boards.Sum(b => b.Events) / seconds);
        foreach (OpenBoard board in boards)
        {
            await board.DisposeAsync();
        }

        return spell;
    }

    private static Spell Say(Spell spell)
    {
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {spell.Boards} | {spell.ProcessorPct:0.0} | {spell.ResidentBytes / 1e6:0} | {spell.HeapBytes / 1e6:0} | {spell.PagesPerSecond:0.0} | {spell.BytesAPage} | {spell.EventsPerSecond:0} |"));
        return spell;
    }

    private static int Size(string[] sizes, int index, int usual) => sizes.Length > index ? int.Parse(sizes[index], CultureInfo.InvariantCulture) : usual;

    private sealed record Spell(
        int Boards, double ProcessorPct, long ResidentBytes, long HeapBytes, double PagesPerSecond, long BytesAPage, double EventsPerSecond);
}
