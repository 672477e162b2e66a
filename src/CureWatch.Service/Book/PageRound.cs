namespace CureWatch.Service.Book;

/// <summary>Has every page of the book read, piece by piece, on the thread that owns it, so that a byte the disk lost is met before somebody needs it.</summary>
/// <remarks>Whoever meets one has the book moved aside and written anew from the journal: nobody has to be told to do anything.</remarks>
/// <param name="book">The book.</param>
/// <param name="rest">Called after each piece with how long it was, for as long as the next one is to wait.</param>
internal sealed class PageRound(BookKeeper book, Func<int, CancellationToken, Task> rest)
{
    /// <summary>How many pages are read at once. Source (choice): a quarter of a megabyte, which nobody behind it waits for.</summary>
    private const int PieceOfPages = 32;

    /// <summary>Looks at all of it once; where the book is away, at what there is.</summary>
    public async Task LookAsync(CancellationToken cancelled)
    {
        for (long page = 0; await LookAsync(page).ConfigureAwait(false) is > 0 and var looked; page += looked)
        {
            await rest(looked * PageSlot.Bytes, cancelled).ConfigureAwait(false);
        }
    }

    private async Task<int> LookAsync(long page) =>
        await book.AskAsync(b => b.CheckPages(page, PieceOfPages)).ConfigureAwait(false) is BookAnswer<int>.Told told ? told.Value : 0;
}
