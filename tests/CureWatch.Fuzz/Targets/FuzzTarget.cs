namespace CureWatch.Fuzz.Targets;

/// <summary>Something that reads what others wrote, and what it promises whatever that is.</summary>
internal abstract class FuzzTarget
{
    /// <summary>Every target.</summary>
    public static IReadOnlyList<FuzzTarget> All { get; } =
    [
        new ReadingTarget(), new TapTarget(), new JobTarget(), new ShopTarget(), new ProductTarget(), new ServiceTarget(), new ReadingsTarget(),
        new SegmentTarget(),
    ];

    /// <summary>What it is called on the command line.</summary>
    public abstract string Name { get; }

    /// <summary>Sound inputs, to be changed.</summary>
    public abstract IEnumerable<byte[]> Seeds { get; }

    /// <summary>
    /// What an input may make the program allocate [bytes], for it and for each of its own: work is bounded by that, for it is the same on every
    /// machine and a clock is not.
    /// </summary>
    protected abstract (long Fixed, long PerByte) Allowance { get; }

    /// <summary>Has the program take an input.</summary>
    /// <exception cref="BrokenPromiseException">It does not keep a promise. Any other exception is one as well.</exception>
    public void Take(byte[] input)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        TryOn(input);
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        long allowed = Allowance.Fixed + (Allowance.PerByte * input.Length);
        BrokenPromiseException.Unless(allocated <= allowed, $"{input.Length} bytes made it allocate {allocated} of {allowed} bytes");
    }

    /// <summary>Has the program take an input, and holds it to its promises.</summary>
    protected abstract void TryOn(byte[] input);
}
