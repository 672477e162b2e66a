using System.CommandLine;
using System.Text.Json;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>backup</c>: a data folder in one file, also beside a service that writes to it.</summary>
internal static class BackupCommand
{
    public static Command Create()
    {
        var file = new Argument<string>("FILE") { Description = "file to write, whose name has to be free" };
        Option<string?> data = DataOption.Optional();
        Option<bool> json = JsonOption.Create();
        var command = new Command("backup", "Writes a data folder to one file and reads it back, also while the service runs.") { file, data, json };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            string? wrong = null;
            if (DataOption.Of(parsed.GetValue(data), faults) is not { } folder
                || Backup.Write(LocalDisk.Instance, folder, parsed.GetValue(file)!, ProgramVersion.Text, TimeProvider.System.GetUtcNow(), faults, content => wrong = content.WrongKey, CancellationToken.None) is not { } backup)
            {
                return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
            }

            Answer(folder, backup, wrong, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
            return ExitCode.Done;
        });
        return command;
    }

    private static void Answer(string folder, Backup backup, string? wrong, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => Write(json, folder, backup, wrong));
        }
        else
        {
            JournalSpan journal = backup.Manifest.Journal;
            output.WriteLine(
                $"{backup.Path}: {folder}, entries {journal.First} to {journal.Last}, up to {UtcText.Of(journal.LastAt)}, "
                + $"in {backup.Manifest.Files.Length} files and {backup.Bytes} bytes; read back and found whole");
            output.Write(wrong is null ? "" : $"{wrong} is not the key it was: put it right and make another, restore refuses this one{Environment.NewLine}");
        }
    }

    private static void Write(Utf8JsonWriter json, string folder, Backup backup, string? wrong)
    {
        json.WriteStartObject();
        json.WriteString("file", backup.Path);
        json.WriteString("data", folder);
        json.WriteNumber("bytes", backup.Bytes);
        json.WriteString("sha256", backup.Sha256);
        json.WriteInstant("at", backup.Manifest.At);
        json.WriteNumber("files", backup.Manifest.Files.Length);
        if (wrong is not null)
        {
            json.WriteString("wrongKey", wrong);
        }

        json.WriteStartObject("journal");
        backup.Manifest.Journal.Write(json);
        json.WriteEndObject();
        json.WriteEndObject();
    }
}
