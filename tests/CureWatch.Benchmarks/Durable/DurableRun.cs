using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json;

namespace CureWatch.Benchmarks.Durable;

/// <summary>
/// Durable QoS 1 throughput beside a bare embedded broker: alternating pairs in one run, each server a process of its own, one warm-up pair.
/// </summary>
internal static class DurableRun
{
    public const string Verb = "durable";

    private const int Pairs = 5;
    private const int MessagesPerConnection = 2_000;

    public static async Task RunAsync()
    {
        var ratios = new List<double>();
        for (int i = 0; i <= Pairs; i++)
        {
            double bare = await BareAsync();
            double durable = await DurableAsync();
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{(i == 0 ? "warm-up" : $"pair {i}")}: durable {durable:0}/s, bare {bare:0}/s, ratio {durable / bare:0.00}"));
            if (i > 0)
            {
                ratios.Add(durable / bare);
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"median ratio {ratios.Order().ElementAt(Pairs / 2):0.00}"));
    }

    private static async Task<double> BareAsync()
    {
        int port = FreePort();
        using Process server = Start("dotnet", typeof(DurableRun).Assembly.Location, BareBroker.Verb, port.ToString(CultureInfo.InvariantCulture));
        _ = await server.StandardOutput.ReadLineAsync();
        double rate = await Load.RunAsync(port, MessagesPerConnection, TimeProvider.System.GetUtcNow());
        server.StandardInput.Close();
        await server.WaitForExitAsync();
        return rate;
    }

    private static async Task<double> DurableAsync()
    {
        using var shop = new DurableShop();
        using Process server = Start(
            "dotnet", typeof(Service.Commands.CommandLine).Assembly.Location, "run", "--config", shop.Config, "--data", shop.Data, "--port", "0", "--mqtt-port", "0", "--json");
        string ready = await server.StandardOutput.ReadLineAsync() ?? throw new IOException(await server.StandardError.ReadToEndAsync());
        int port = new Uri(JsonElement.Parse(ready).GetProperty("mqtt").GetString()!).Port;
        double rate = await Load.RunAsync(port, MessagesPerConnection, TimeProvider.System.GetUtcNow());
        server.Kill();
        await server.WaitForExitAsync();
        return rate;
    }

    private static Process Start(string program, params string[] arguments) => Process.Start(
        new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true })!;

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
