using CureWatch.Readings;

namespace CureWatch.Service.Pump;

/// <summary>What comes to the pump from outside, and the answer it waits for.</summary>
internal abstract class Arrival
{
    /// <summary>What one takes up beside its text, with the answer that somebody waits for [bytes]. Source (choice): a generous guess.</summary>
    private const int BareBytes = 300;

    private readonly TaskCompletionSource<Answer> _answer = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private Arrival()
    {
    }

    /// <summary>Completes once the arrival is on disk, or refused. Never faults, never stays open.</summary>
    public Task<Answer> Answered => _answer.Task;

    /// <summary>Which of all it is, as the inbox counts them.</summary>
    public long Number { get; set; }

    /// <summary>What it takes up while it waits, about [bytes].</summary>
    public virtual int Bytes => BareBytes;

    public void Complete(Answer answer) => _answer.TrySetResult(answer);

    /// <summary>A decoded reading.</summary>
    internal sealed class Reading(Journal.Entry.Reading entry) : Arrival
    {
        public Journal.Entry.Reading Entry { get; } = entry;
    }

    /// <summary>A message that is no reading: counted.</summary>
    internal sealed class Refusal(Disbelief reason, string place) : Arrival
    {
        public Disbelief Reason { get; } = reason;

        /// <summary>The probe as <c>bay/probe</c>, or where else it was seen.</summary>
        public string Place { get; } = place;
    }

    /// <summary>A tap as JSON: an object of the contract's keys, with or without <c>job</c>.</summary>
    internal sealed class Tap(string source, string? job, ReadOnlyMemory<byte> utf8, string? button = null) : Arrival
    {
        /// <summary>The push-button it came from, which nobody can tell that it was refused; null where somebody reads the answer.</summary>
        public string? Button { get; } = button;

        /// <summary>Names the document in a fault, such as a topic or a path.</summary>
        public string Source { get; } = source;

        /// <summary>The job; null where the document's own <c>job</c> says.</summary>
        public string? Job { get; } = job;

        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>A press of the one button that walks a car, as JSON.</summary>
    internal sealed class Next(string source, string job, ReadOnlyMemory<byte> utf8) : Arrival
    {
        public string Source { get; } = source;

        public string Job { get; } = job;

        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>A car's work as JSON, in the shape of a job file.</summary>
    internal sealed class JobStart(string source, ReadOnlyMemory<byte> utf8) : Arrival
    {
        public string Source { get; } = source;

        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>A car leaves.</summary>
    internal sealed class HandOver(string job, string? by, string? despite) : Arrival
    {
        public string Job { get; } = job;

        public string? By { get; } = by;

        public string? Despite { get; } = despite;
    }

    /// <summary>A photo whose picture is on disk.</summary>
    internal sealed class Photo(string source, string job, ReadOnlyMemory<byte> utf8, Picture picture) : Arrival
    {
        public string Source { get; } = source;

        public string Job { get; } = job;

        /// <summary>An object with <c>surface</c>, <c>layer</c> and <c>by</c>, where somebody says them.</summary>
        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public Picture Picture { get; } = picture;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>A photo's picture is to be taken away.</summary>
    internal sealed class PhotoRemoval(string job, string sha256, string? by) : Arrival
    {
        public string Job { get; } = job;

        public string Sha256 { get; } = sha256;

        public string? By { get; } = by;
    }

    /// <summary>What was learnt about a product is to start anew.</summary>
    internal sealed class LearningReset(string source, ReadOnlyMemory<byte> utf8) : Arrival
    {
        public string Source { get; } = source;

        /// <summary>An object with <c>product</c> and, where somebody says them, <c>bay</c>, <c>by</c> and <c>note</c>.</summary>
        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>Something of the day plan is to be changed.</summary>
    internal sealed class Planned(PlanVerb verb, string source, string? id, ReadOnlyMemory<byte> utf8) : Arrival
    {
        public PlanVerb Verb { get; } = verb;

        public string Source { get; } = source;

        /// <summary>The work or the job; null where the document says, or the work gets an id.</summary>
        public string? Id { get; } = id;

        /// <summary>An object with what is planned; where something is dropped, with who does and why.</summary>
        public ReadOnlyMemory<byte> Utf8 { get; } = utf8;

        public override int Bytes => BareBytes + Utf8.Length;
    }

    /// <summary>The alarm clock rang: what is due happens now.</summary>
    internal sealed class Wake : Arrival;
}

/// <summary>A picture that was written to the disk.</summary>
/// <param name="Sha256">Its name: the SHA-256 of its bytes, in lower-case hexadecimal.</param>
/// <param name="Bytes">How long it is.</param>
/// <param name="WidthPx">Its width.</param>
/// <param name="HeightPx">Its height.</param>
internal sealed record Picture(string Sha256, long Bytes, int WidthPx, int HeightPx);

/// <summary>What somebody does to the day plan.</summary>
internal enum PlanVerb
{
    /// <summary>Plans work that was not planned.</summary>
    Add,

    /// <summary>Plans work, whether or not it was planned before.</summary>
    Put,

    /// <summary>Drops planned work.</summary>
    Drop,

    /// <summary>Plans otherwise when a car comes and is begun.</summary>
    Visit,

    /// <summary>Tells that a car does not come.</summary>
    Cancel,
}
