using BenchmarkDotNet.Running;
using CureWatch.Benchmarks;

string[] chosen = args.Length > 0 ? args : ["--filter", "*"];
BenchmarkSwitcher.FromAssembly(typeof(DewPointBenchmark).Assembly).Run(chosen);
