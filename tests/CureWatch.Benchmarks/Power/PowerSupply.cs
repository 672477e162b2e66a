namespace CureWatch.Benchmarks.Power;

/// <summary>What a disk runs on: until it goes, and again after it is back.</summary>
internal sealed class PowerSupply
{
    private long _left = long.MaxValue;
    private bool _isGone;

    /// <summary>Whoever uses the disk holds this: the power goes between calls, or in the middle of a change.</summary>
    public Lock Gate { get; } = new();

    /// <summary>How many calls changed anything so far.</summary>
    public long Changes { get; private set; }

    /// <summary>How often it came back.</summary>
    public int Life { get; private set; }

    public bool IsGone
    {
        get
        {
            lock (Gate)
            {
                return _isGone;
            }
        }
    }

    /// <summary>Lets it go in the middle of one of the next changes.</summary>
    public void CutAfter(long changes)
    {
        lock (Gate)
        {
            _left = changes;
        }
    }

    public void Cut()
    {
        lock (Gate)
        {
            _isGone = true;
        }
    }

    public void Restore()
    {
        (_isGone, _left) = (false, long.MaxValue);
        Life++;
    }

    /// <summary>Makes a change; or makes it, and loses it with the power.</summary>
    public void Change(Action change)
    {
        Demand();
        change();
        Changes++;
        if (--_left < 0)
        {
            _isGone = true;
            Demand();
        }
    }

    public void Demand()
    {
        if (_isGone)
        {
            throw new PowerCutException();
        }
    }
}
