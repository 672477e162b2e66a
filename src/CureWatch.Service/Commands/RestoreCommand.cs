using System.CommandLine;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>restore</c>: a data folder from a backup.</summary>
internal static class RestoreCommand
{
    public static Command Create()
    {
        var file = new Argument<string>("FILE") { Description = "the backup" };
        Option<string?> data = DataOption.Optional();
        var parts = new Option<string[]>("--journal")
        {
            Description = "archive of a retired part of its journal, to be put back before it; as often as there are such",
            HelpName = "path",
            AllowMultipleArgumentsPerToken = true,
        };
        var command = new Command("restore", "Makes a new data folder of a backup, or says where the backup is damaged.") { file, data, parts };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            if (DataOption.Of(parsed.GetValue(data), faults) is not { } target
                || Restore.Of(LocalDisk.Instance, parsed.GetValue(file)!, target, faults, parsed.GetValue(parts) ?? []) is not { } restored)
            {
                return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
            }

            JournalSpan journal = restored.Journal;
            parsed.InvocationConfiguration.Output.WriteLine(
                $"{target}: entries {journal.First} to {journal.Last}, up to {UtcText.Of(journal.LastAt)}; the next start writes the book from them");
            return ExitCode.Done;
        });
        return command;
    }
}
