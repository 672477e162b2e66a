namespace CureWatch.Service.Book;

/// <summary>What the book says to a question.</summary>
internal abstract record BookAnswer<T>
{
    private BookAnswer()
    {
    }

    /// <param name="Value">What it says.</param>
    /// <param name="IsBehind">Whether it has yet to catch up with the journal, so that something may be missing.</param>
    internal sealed record Told(T Value, bool IsBehind) : BookAnswer<T>;

    /// <summary>It cannot be asked now.</summary>
    internal sealed record Away(string Why) : BookAnswer<T>;
}
