using System.Globalization;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>Tells what of the disk has gone wrong or soon will while entries are still taken: little room, slow writes, no keys.</summary>
/// <remarks>The pump asks it, on its thread; only a write that does not come back is told from another.</remarks>
internal sealed class StorageWatch : IDisposable
{
    /// <summary>Warned below this. Source (choice): some months of a shop, and twice what the book writes at once.</summary>
    public const long LittleBytes = 200_000_000;

    /// <summary>All is well again above this, so that it does not come and go.</summary>
    public const long EnoughBytes = 250_000_000;

    /// <summary>A write takes milliseconds; on a card that tidies itself up, a second. Source (choice).</summary>
    public static readonly TimeSpan LongWrite = TimeSpan.FromSeconds(3);

    /// <summary>One that is not back by then may never come back: a disk that was unplugged, a network share that hangs. Source (choice): as long as probes are kept waiting.</summary>
    public static readonly TimeSpan HungWrite = TimeSpan.FromSeconds(30);

    private static readonly TimeSpan Every = TimeSpan.FromMinutes(1);

    private readonly IDisk _disk;
    private readonly string _folder;
    private readonly KeyStore _keys;
    private readonly Troubles _troubles;
    private readonly TimeProvider _clock;
    private readonly ITimer _stall;
    private readonly Lock _lock = new();
    private readonly SortedDictionary<Worry, string> _worries = [];
    private volatile IReadOnlyList<string> _wrong = [];
    private DateTimeOffset _lookedAt = DateTimeOffset.MinValue;
    private long _startedAt;
    private bool _isWriting;
    private bool _isHung;

    /// <param name="disk">The disk.</param>
    /// <param name="folder">Where the journal is.</param>
    /// <param name="keys">The keys.</param>
    /// <param name="troubles">Where it is told.</param>
    /// <param name="clock">The clock.</param>
    public StorageWatch(IDisk disk, string folder, KeyStore keys, Troubles troubles, TimeProvider clock)
    {
        (_disk, _folder, _keys, _troubles, _clock) = (disk, folder, keys, troubles, clock);
        _stall = clock.CreateTimer(_ => Stalls(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        KeysAreWrong([.. keys.Misfits], holder: null);
        Tell(Worry.LostKeys, keys.Lost == 0 ? null : $"none of the keys of {keys.Lost} jobs is in {keys.Folder}: put them back from a backup and start again, unless they were destroyed on purpose; until a start no older backup is let go");
    }

    private enum Worry
    {
        LittleRoom,
        SlowWrites,
        NoKeys,
        WrongKeys,
        LostKeys,
    }

    /// <summary>How long the last write took.</summary>
    public TimeSpan LastWrite { get; private set; }

    /// <summary>Whether a key was asked for and could not be had.</summary>
    public bool LacksKeys
    {
        get
        {
            lock (_lock)
            {
                return _worries.ContainsKey(Worry.NoKeys);
            }
        }
    }

    /// <summary>Watches over a write.</summary>
    public T Watch<T>(Func<T> write)
    {
        _startedAt = _clock.GetTimestamp();
        lock (_lock)
        {
            _isWriting = true;
        }

        _stall.Change(LongWrite, LongWrite);
        bool isWritten = false;
        try
        {
            T written = write();
            isWritten = true;
            return written;
        }
        finally
        {
            _stall.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            LastWrite = _clock.GetElapsedTime(_startedAt);
            lock (_lock)
            {
                _isWriting = false;
                ComeBack(isWritten);
                Tell(Worry.SlowWrites, LastWrite < LongWrite ? null : string.Create(CultureInfo.InvariantCulture, $"the last write took {LastWrite.TotalSeconds:F0} s"));
            }
        }
    }

    /// <summary>Looks, once a minute, whether there is room, and whether keys that could not be made can be made again.</summary>
    /// <returns>Whether it was time to look.</returns>
    public bool Look()
    {
        DateTimeOffset now = _clock.GetUtcNow();
        if ((now - _lookedAt).Duration() < Every)
        {
            return false;
        }

        _lookedAt = now;
        lock (_lock)
        {
            LookForRoom();
            if (_worries.ContainsKey(Worry.NoKeys))
            {
                TryKeys();
            }
        }

        return true;
    }

    /// <summary>A key could not be made, or is none.</summary>
    public void KeysFail(Exception e)
    {
        lock (_lock)
        {
            Tell(Worry.NoKeys, $"there is no key for what names a person, so that is not taken, and a push-button's tap without name and note ({e.Message.TrimEnd('.')})");
        }
    }

    /// <summary>Told which keys on disk are not the ones they were; those this service was started with stand until it is started again.</summary>
    /// <param name="files">Their files.</param>
    /// <param name="holder">The backup that has the first as it was; null where none is known.</param>
    public void KeysAreWrong(IReadOnlyList<string> files, string? holder)
    {
        _wrong = files;
        string? why = WhyWrong(holder, [.. _keys.Misfits], [.. _keys.Renewed]);
        lock (_lock)
        {
            Tell(Worry.WrongKeys, why);
        }
    }

    /// <returns>The file of a key, or the folder of all, that is not known to be right, so that an older backup may be the only place it is in; null where there is none.</returns>
    public string? WrongKey() => _wrong.Concat(_keys.Wrong()).FirstOrDefault() ?? (_keys.Lost > 0 ? _keys.Folder : null);

    public void Dispose() => _stall.Dispose();

    private string? WhyWrong(string? holder, List<string> started, List<string> renewed)
    {
        if (_wrong is not [var file, ..])
        {
            return started is [var back, ..] ? $"{back} is the key it was again, but what it opens is not read before a start: start again"
                : renewed is [var anew, ..] ? $"{anew} was deleted and made anew, and no snapshot is taken before a start: start again"
                : null;
        }

        string more = _wrong.Count > 1 ? $", nor are {_wrong.Count - 1} more" : "";
        string from = holder is not null ? $"{holder}, which has it as keys/{Path.GetFileName(file)}" : "a backup from before it was damaged";
        return $"{file} is not the key it was{more}: put it back from {from}{(started.Count + renewed.Count > 0 ? ", and start again" : "")}; until then it seals nothing, and no older backup is let go";
    }

    private void LookForRoom()
    {
        long free;
        try
        {
            free = _disk.FreeBytes(_folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return; // whoever writes will see
        }

        bool isLittle = free < (_worries.ContainsKey(Worry.LittleRoom) ? EnoughBytes : LittleBytes);
        Tell(Worry.LittleRoom, isLittle ? string.Create(CultureInfo.InvariantCulture, $"only about {free / 10_000_000 * 10} MB are left on the disk") : null);
    }

    private void TryKeys()
    {
        try
        {
            _keys.Try();
            Tell(Worry.NoKeys, null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            KeysFail(e);
        }
    }

    private void Stalls()
    {
        lock (_lock)
        {
            if (!_isWriting)
            {
                return;
            }

            Tell(Worry.SlowWrites, string.Create(CultureInfo.InvariantCulture, $"a write has not come to its end for {LongWrite.TotalSeconds:F0} s"));
            if (_clock.GetElapsedTime(_startedAt) >= HungWrite && _troubles.Of(WarningKind.StorageTrouble) is null)
            {
                _isHung = true;
                _troubles.Raise(WarningKind.StorageTrouble, string.Create(CultureInfo.InvariantCulture, $"a write has not come back for {HungWrite.TotalSeconds:F0} s"));
            }
        }
    }

    /// <summary>One that failed leaves the trouble standing, for the pump to go on with.</summary>
    private void ComeBack(bool isWritten)
    {
        if (_isHung && isWritten)
        {
            _troubles.Clear(WarningKind.StorageTrouble);
        }

        _isHung = false;
    }

    private void Tell(Worry worry, string? why)
    {
        if (why is null ? !_worries.Remove(worry) : _worries.TryGetValue(worry, out string? before) && before == why)
        {
            return;
        }

        if (why is not null)
        {
            _worries[worry] = why;
        }

        if (_worries.Count > 0)
        {
            _troubles.Raise(WarningKind.StorageAhead, string.Join("; ", _worries.Values));
        }
        else
        {
            _troubles.Clear(WarningKind.StorageAhead);
        }
    }
}
