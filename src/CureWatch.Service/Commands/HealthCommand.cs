using System.CommandLine;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>health</c>: asks the service on this machine whether it does its work; for whatever restarts it when it does not.</summary>
internal static class HealthCommand
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static Command Create()
    {
        Option<string?> config = ConfigOption.Create();
        Option<int?> port = PortOptions.Board();
        var command = new Command("health", "Asks the service on this machine whether it does its work. Exits 1 where it does not.") { config, port };
        command.SetAction(parsed => Ask(
            parsed.GetValue(port) ?? PortIn(parsed.GetValue(config) ?? ConfigurationFolder.Usual), parsed.InvocationConfiguration.Output));
        return command;
    }

    /// <summary>Where the service listens that was started with these settings; the files may have been changed since, and be faulty.</summary>
    private static int PortIn(string config)
    {
        string? file = ConfigurationFolder.Find(config, new Faults())?.Service;
        return ServiceFile.BoardPort(file, ServiceVariable.OfProcess) is { } port and > 0 ? port : BoardOfService.UsualPort;
    }

    private static int Ask(int port, TextWriter output)
    {
        using var direct = new SocketsHttpHandler { UseProxy = false };
        using var client = new HttpClient(direct) { Timeout = Patience };
        try
        {
            using HttpResponseMessage answer = client.Send(new HttpRequestMessage(HttpMethod.Get, new Uri($"http://127.0.0.1:{port}/health/ready")));
            using var body = new StreamReader(answer.Content.ReadAsStream());
            output.WriteLine(body.ReadToEnd());
            return answer.IsSuccessStatusCode ? ExitCode.Done : ExitCode.AnswerIsNo;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
        {
            output.WriteLine($"no answer on port {port}: {e.Message}");
            return ExitCode.AnswerIsNo;
        }
    }
}
