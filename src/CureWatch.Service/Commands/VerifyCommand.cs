using System.CommandLine;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>verify</c>: whether a data folder still holds what was written to it.</summary>
internal static class VerifyCommand
{
    public static Command Create()
    {
        Option<string?> data = DataOption.Optional();
        var command = new Command("verify", "Checks every file of a data folder's journal and book. Exits 1 where it finds damage.") { data };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            string folder = parsed.GetValue(data) ?? DataOption.Usual;
            return DataFolder.HasJournal(LocalDisk.Instance, folder, faults)
                ? Answer(folder, parsed.InvocationConfiguration.Output)
                : Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        });
        return command;
    }

    private static int Answer(string folder, TextWriter output)
    {
        IReadOnlyList<string> damages = [.. JournalReader.DamagesIn(LocalDisk.Instance, DataFolder.JournalOf(folder)).Select(d => d.ToString())];
        Recovery recovery = JournalFold.Open(LocalDisk.Instance, folder);
        if (damages.Count == 0)
        {
            damages = Unreadable(recovery) is { } unreadable ? [$"{folder}: {unreadable}"] : [];
        }

        (bool isBookDamaged, string ofBook) = Book(folder, damages.Count == 0 ? recovery.Register.Sequence : null);
        damages = isBookDamaged ? [.. damages, ofBook] : damages;
        foreach (string damage in damages)
        {
            output.WriteLine(damage);
        }

        if (damages.Count > 0)
        {
            return ExitCode.AnswerIsNo;
        }

        int segments = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(folder)).Count;
        output.WriteLine($"{folder}: {recovery.Register.Sequence} entries in {segments} segments, no damage");
        output.WriteLine(ofBook);
        if (recovery.End.TornBytes > 0)
        {
            output.WriteLine($"{recovery.End.TornBytes} bytes of an unfinished write at the end, never acknowledged; the next start cuts them off");
        }

        int differences = recovery.Facts.Strange.Count + recovery.Facts.Untold.Count;
        if (differences > 0)
        {
            output.WriteLine($"{differences} warnings or rulings were told otherwise than this program would tell them");
        }

        return ExitCode.Done;
    }

    private static (bool IsDamage, string Says) Book(string folder, long? journalLast)
    {
        if (!DataFolder.TryKeepOut(LocalDisk.Instance, folder, out IDisposable? kept))
        {
            return (false, $"{DataFolder.BookOf(folder)}: not looked at, for a service may be writing it; its answers say how far it is");
        }

        using (kept)
        {
            return BookCheck.Of(LocalDisk.Instance, DataFolder.BookOf(folder), journalLast);
        }
    }

    private static string? Unreadable(Recovery recovery)
    {
        try
        {
            recovery.Run();
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            return e.Message;
        }
    }
}
