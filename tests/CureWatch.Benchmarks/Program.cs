using System.Globalization;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Running;
using CureWatch.Benchmarks.Backlog;
using CureWatch.Benchmarks.BackupSpeed;
using CureWatch.Benchmarks.Boards;
using CureWatch.Benchmarks.BookSize;
using CureWatch.Benchmarks.Durable;
using CureWatch.Benchmarks.Fold;
using CureWatch.Benchmarks.Harness;
using CureWatch.Benchmarks.Kills;
using CureWatch.Benchmarks.Latency;
using CureWatch.Benchmarks.Peers;
using CureWatch.Benchmarks.Power;
using CureWatch.Benchmarks.ReplayYear;
using CureWatch.Benchmarks.Soak;
using CureWatch.Benchmarks.StartUp;
using CureWatch.Benchmarks;

switch (args)
{
    case [DurableRun.Verb, .. var sizes]:
        await DurableRun.RunAsync(sizes);
        break;
    case [SizesRun.Verb, .. var shops]:
        await SizesRun.RunAsync(shops);
        break;
    case [LatencyRun.Verb, .. var rates]:
        await LatencyRun.RunAsync(rates);
        break;
    case [PeersRun.Verb, .. var kills]:
        await PeersRun.RunAsync(kills);
        break;
    case [SoakRun.Verb, string minutes, string perSecond]:
        await SoakRun.RunAsync(int.Parse(minutes, CultureInfo.InvariantCulture), int.Parse(perSecond, CultureInfo.InvariantCulture));
        break;
    case [BoardsRun.Verb, .. var boards]:
        await BoardsRun.RunAsync(boards);
        break;
    case [BareBroker.Verb, string port]:
        await BareBroker.RunAsync(int.Parse(port, CultureInfo.InvariantCulture));
        break;
    case [BacklogRun.Verb, string seconds, .. var order]:
        await BacklogRun.RunAsync(int.Parse(seconds, CultureInfo.InvariantCulture), isNewestFirst: order is not ["oldest"]);
        break;
    case [FoldRun.Verb]:
        FoldRun.Run();
        break;
    case [FoldRun.Verb, string coats, string bays]:
        FoldRun.RunOne(int.Parse(coats, CultureInfo.InvariantCulture), int.Parse(bays, CultureInfo.InvariantCulture));
        break;
    case [FoldRun.Verb, string coats, _, _, ..]:
        FoldRun.Compare(coats, args[2..]);
        break;
    case [KillsRun.Verb, .. var options]:
        return await KillsRun.RunAsync(options);
    case [BackupSpeedRun.Verb, .. var options]:
        return BackupSpeedRun.Run(options);
    case [BookSizeRun.Verb, .. var options]:
        return await BookSizeRun.RunAsync(options);
    case [ReplayYearRun.Verb, .. var times]:
        await ReplayYearRun.RunAsync(times);
        break;
    case [StartUpRun.Verb, .. var days]:
        await StartUpRun.RunAsync(days);
        break;
    case [PowerRun.Verb, .. var options]:
        return await PowerRun.RunAsync(options);
    default:
        // Each benchmark is built as a program of its own, the service and all it needs with it: on two busy cores that takes longer than the usual two minutes.
        BenchmarkSwitcher.FromAssembly(typeof(DewPointBenchmark).Assembly)
            .Run(args.Length > 0 ? args : ["--filter", "*"], ManualConfig.Create(DefaultConfig.Instance).WithBuildTimeout(TimeSpan.FromMinutes(20)));
        break;
}

return 0;
