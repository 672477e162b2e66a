using System.Text.Json;
using CureWatch.Service.Book;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Api;

/// <summary>Asks the book, which may have yet to catch up, or be away; the bay is watched on in any case.</summary>
internal sealed class Past(BookKeeper book)
{
    /// <param name="question">What is asked.</param>
    /// <param name="answer">The answer to what it says; <see cref="Through"/> has to be in it.</param>
    /// <param name="aborted">Cancelled where nobody waits any more.</param>
    public async Task<IResult> AskAsync<T>(Func<BookQueries, T> question, Func<T, Through, IResult> answer, CancellationToken aborted)
    {
        BookAnswer<(T Said, BookPosition Position)> told = await book.AskAsync(b => (question(b), b.Position)).WaitAsync(aborted);
        return told switch
        {
            BookAnswer<(T Said, BookPosition Position)>.Told t => answer(t.Value.Said, new Through(t.Value.Position, !t.IsBehind)),
            BookAnswer<(T Said, BookPosition Position)>.Away a => Problem.Of(
                StatusCodes.Status503ServiceUnavailable, $"What is over cannot be looked up now: {a.Why}. Nothing of it is lost."),
            _ => throw new System.Diagnostics.UnreachableException(told.GetType().Name),
        };
    }
}

/// <summary>How far the book was when it answered.</summary>
/// <param name="Position">The last entry in it.</param>
/// <param name="IsComplete">Whether it has all there is; false while it catches up, so that something may be missing.</param>
internal readonly record struct Through(BookPosition Position, bool IsComplete)
{
    /// <summary>Writes into an object that is open.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject("through");
        json.WriteNumber("entry", Position.Sequence);
        json.WriteInstant("at", Position.Sequence > 0 ? Position.At : null);
        json.WriteBoolean("complete", IsComplete);
        json.WriteEndObject();
    }
}
