using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Pump;

/// <summary>What the pump says to an arrival.</summary>
internal abstract record Answer
{
    private Answer()
    {
    }

    /// <summary>It is on disk and taken in.</summary>
    /// <param name="Job">The job it was about, where it was about one.</param>
    internal sealed record Stored(string? Job) : Answer
    {
        /// <summary>It was about no job.</summary>
        public static Stored Plain { get; } = new((string?)null);
    }

    /// <summary>It was told before, word for word: nothing changed.</summary>
    internal sealed record Repeated(string? Job) : Answer;

    /// <summary>It cannot be used; every fault is named.</summary>
    internal sealed record Refused(ImmutableArray<Fault> Faults) : Answer
    {
        /// <summary>Taking it in broke something.</summary>
        public static Refused ByAnError { get; } =
            new([new Fault("curewatch", "", "an error of this program, which is in its log", "anything: this should not happen")]);
    }

    /// <summary>Nothing is known of that job.</summary>
    internal sealed record NoSuchJob(string Job) : Answer;

    /// <summary>The car may not leave yet.</summary>
    internal sealed record Held(ImmutableArray<Hold> Holds) : Answer;

    /// <summary>It does not fit what is to be done now.</summary>
    internal sealed record Unfit(Sentence Why) : Answer;

    /// <summary>It could not be stored: nothing was acknowledged, and it must come again.</summary>
    internal sealed record NotStored(string Why) : Answer;
}
