using System.CommandLine;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>export</c>: a real job with its settings and readings as a folder that <c>replay</c> takes.</summary>
internal static class ExportCommand
{
    public static Command Create()
    {
        var data = new Option<string>("--data") { Description = "data folder", HelpName = "path", Required = true };
        var job = new Option<string>("--job") { Description = "the job's id", HelpName = "id", Required = true };
        var target = new Argument<string>("OUT") { Description = "new or empty folder to write to" };
        var command = new Command("export", "Writes a job's settings, readings and taps as a folder to replay.") { data, job, target };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            string folder = parsed.GetValue(target)!;
            return Export(parsed.GetValue(data)!, parsed.GetValue(job)!, folder, faults)
                ? Say(folder, parsed.InvocationConfiguration.Output)
                : Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        });
        return command;
    }

    private static bool Export(string data, string job, string target, Faults faults)
    {
        var recording = new DayRecording();
        if (new DataReplay(data, job, null, faults) { Recording = recording }.Run() is not { Day: var day, Register: var register })
        {
            return false;
        }

        try
        {
            Directory.CreateDirectory(target);
            if (Directory.EnumerateFileSystemEntries(target).Any())
            {
                faults.Add(target, "folder", "files in it", "a new or empty folder");
                return false;
            }

            LivedDay? lived = recording.Of(job);
            ExportedFolder.Write(target, recording.SettingsOf(job) ?? register.Settings, day.Report!, lived, Readings(data, lived is null ? 0 : recording.From, lived?.EndedAt));
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            faults.Add(target, "folder", e.Message, "a folder that can be written");
            return false;
        }
    }

    /// <summary>Every reading until the job was closed: what came after changed nothing about it.</summary>
    private static IEnumerable<(Entry.Reading Reading, DateTimeOffset At)> Readings(string data, long from, DateTimeOffset? closedAt)
    {
        var codec = new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(data)));
        foreach (Frame frame in new JournalReader(LocalDisk.Instance, DataFolder.JournalOf(data)).Frames().Where(f => f.Kind == EntryKind.Reading && f.Sequence >= from && !(f.At > closedAt)))
        {
            yield return ((Entry.Reading)codec.Read(frame), frame.At);
        }
    }

    private static int Say(string folder, TextWriter output)
    {
        output.WriteLine(
            $"curewatch replay --config {Path.Combine(folder, ExportedFolder.Config)} --readings {Path.Combine(folder, ExportedFolder.Readings)} "
            + $"--job {Path.Combine(folder, ExportedFolder.Job)}");
        return ExitCode.Done;
    }
}
