namespace CureWatch.Service.Book;

/// <summary>A question that waits for the thread that owns the book.</summary>
internal abstract class BookQuestion
{
    private BookQuestion()
    {
    }

    public abstract void Answer(BookQueries book, bool isBehind);

    public abstract void Refuse(string why);

    internal sealed class Of<T>(Func<BookQueries, T> question) : BookQuestion
    {
        private readonly TaskCompletionSource<BookAnswer<T>> _answer = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Task<BookAnswer<T>> Answered => _answer.Task;

        public override void Answer(BookQueries book, bool isBehind) =>
            _answer.TrySetResult(new BookAnswer<T>.Told(question(book), isBehind));

        public override void Refuse(string why) => _answer.TrySetResult(new BookAnswer<T>.Away(why));
    }
}
