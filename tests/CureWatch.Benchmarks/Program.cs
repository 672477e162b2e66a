using System.Globalization;
using BenchmarkDotNet.Running;
using CureWatch.Benchmarks;
using CureWatch.Benchmarks.Durable;

switch (args)
{
    case [DurableRun.Verb]:
        await DurableRun.RunAsync();
        break;
    case [BareBroker.Verb, string port]:
        await BareBroker.RunAsync(int.Parse(port, CultureInfo.InvariantCulture));
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(DewPointBenchmark).Assembly).Run(args.Length > 0 ? args : ["--filter", "*"]);
        break;
}
