using System.CommandLine;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>verify</c>: whether a data folder, or a backup of one, still holds what was written to it.</summary>
internal static class VerifyCommand
{
    public static Command Create()
    {
        Option<string?> data = DataOption.Optional();
        var backup = new Option<string?>("--backup") { Description = "a backup to look over instead of a data folder", HelpName = "path" };
        var command = new Command("verify", "Holds journal, keys and book against what was written and against each other. Exits 1 where it finds damage.")
        {
            data, backup,
        };
        command.SetAction(parsed =>
        {
            (TextWriter output, TextWriter error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (parsed.GetValue(backup) is { } file)
            {
                return parsed.GetValue(data) is { } both
                    ? Refuse(OptionFaults.Line("--data", both, "nothing beside --backup"), error)
                    : OfBackup(file, output, error);
            }

            var faults = new Faults();
            return DataOption.Of(parsed.GetValue(data), faults) is { } folder ? OfFolder(folder, output, error) : Refusal.Of(faults, error);
        });
        return command;
    }

    private static int OfFolder(string folder, TextWriter output, TextWriter error)
    {
        var faults = new Faults();
        try
        {
            if (Verification.HasBook(folder) || DataFolder.HasJournal(LocalDisk.Instance, folder, faults))
            {
                return Answer(Verification.Of(folder), output);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            faults.Add(folder, "data folder", e.Message, "a data folder of this program that can be read");
        }

        return Refusal.Of(faults, error);
    }

    /// <summary>Makes a data folder of it, for a while, and looks that over: what a restore would give is what counts.</summary>
    private static int OfBackup(string file, TextWriter output, TextWriter error)
    {
        if (!File.Exists(file))
        {
            return Refuse(OptionFaults.Line("--backup", file, "a file that is there"), error);
        }

        var faults = new Faults();
        if (Archive.ManifestOf(LocalDisk.Instance, file) is { IsPart: true, Journal: var span })
        {
            using Archive? part = Archive.Open(LocalDisk.Instance, file, faults);
            bool isWhole = part?.ReadAll(faults) == true;
            return Say(isWhole ? [$"{file}: entries {span.First} to {span.Last} of the journal, whole"] : faults.All, isWhole, output);
        }

        DirectoryInfo place = Directory.CreateTempSubdirectory("curewatch-verify-");
        try
        {
            if (Restore.Of(LocalDisk.Instance, file, place.FullName, faults) is not null)
            {
                return Answer(Verification.Of(place.FullName), output, place.FullName, file);
            }

            // Where there is no room to unpack it, that says nothing of the backup.
            return faults.All.All(f => f.File == place.FullName) ? Refusal.Of(faults, error) : Say(faults.All, isWhole: false, output);
        }
        finally
        {
            place.Delete(recursive: true);
        }
    }

    private static int Say(IEnumerable<object> lines, bool isWhole, TextWriter output)
    {
        foreach (object line in lines)
        {
            output.WriteLine(line);
        }

        return isWhole ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static int Answer(Verification found, TextWriter output, string folder = "", string shownAs = "")
    {
        bool isDamaged = found.Damages.Count > 0;
        foreach (string line in isDamaged ? found.Damages : found.Notes)
        {
            if (folder.Length == 0)
            {
                output.WriteLine(line);
            }
            else if (!line.StartsWith(DataFolder.BookOf(folder), StringComparison.Ordinal))
            {
                output.WriteLine(line.Replace(folder, shownAs, StringComparison.Ordinal));   // of the book there is none in a backup
            }
        }

        return isDamaged ? ExitCode.AnswerIsNo : ExitCode.Done;
    }

    private static int Refuse(string line, TextWriter error)
    {
        error.WriteLine(line);
        return ExitCode.Unusable;
    }
}
