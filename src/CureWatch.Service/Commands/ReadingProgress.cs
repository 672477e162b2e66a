using System.Globalization;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Says how far the journal is read while a start has to wait for it, so that nobody takes it for one that hangs.</summary>
/// <param name="time">The time of the machine: by how much of the journal's own time is read, it reckons what is left.</param>
/// <param name="error">Where it is said.</param>
internal sealed class ReadingProgress(TimeProvider time, TextWriter error)
{
    /// <summary>How often it is said, and after how long first. Source (choice): a start behind a snapshot says nothing.</summary>
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(10);

    private readonly long _begun = time.GetTimestamp();
    private TimeSpan _said;
    private DateTimeOffset? _first;

    /// <summary>Looks at an entry that was read, each after the one before.</summary>
    /// <param name="step">The entry.</param>
    public void Look(Step step)
    {
        DateTimeOffset first = _first ??= step.At;
        TimeSpan taken = time.GetElapsedTime(_begun);
        if (taken - _said < Every)
        {
            return;
        }

        _said = taken;
        TimeSpan read = step.At - first, left = time.GetUtcNow() - step.At;
        string rest = read > TimeSpan.Zero && left > TimeSpan.Zero
            ? string.Create(CultureInfo.InvariantCulture, $"; {Math.Ceiling(taken.TotalMinutes * (left / read)):0} minutes more at most")
            : "";
        error.WriteLine($"Reading the journal, which is at {UtcText.Of(step.At)}, entry {step.Sequence}{rest}.");
    }
}
