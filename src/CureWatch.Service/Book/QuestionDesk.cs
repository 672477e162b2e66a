namespace CureWatch.Service.Book;

/// <summary>Questions that wait for the thread that owns the book.</summary>
internal sealed class QuestionDesk
{
    private readonly Lock _lock = new();
    private readonly Queue<BookQuestion> _questions = new();
    private string? _away;

    /// <summary>Takes a question, which is answered in any case.</summary>
    public void Put(BookQuestion question)
    {
        string why;
        lock (_lock)
        {
            if (_away is not { } away)
            {
                _questions.Enqueue(question);
                return;
            }

            why = away;
        }

        question.Refuse(why);
    }

    public void Open()
    {
        lock (_lock)
        {
            _away = null;
        }
    }

    /// <summary>Refuses every question, those that come later too.</summary>
    public void Close(string why)
    {
        lock (_lock)
        {
            _away = why;
            while (_questions.TryDequeue(out BookQuestion? question))
            {
                question.Refuse(why);
            }
        }
    }

    /// <summary>How many questions wait.</summary>
    public int Waiting
    {
        get
        {
            lock (_lock)
            {
                return _questions.Count;
            }
        }
    }

    /// <summary>Answers the first of those that wait: what was asked since may be about what the book has not taken yet.</summary>
    public void Answer(int most, BookQueries book, bool isBehind)
    {
        for (int i = 0; i < most && Next() is { } question; i++)
        {
            try
            {
                question.Answer(book, isBehind);
            }
            catch (Exception e)
            {
                question.Refuse(e.Message);
                throw;
            }
        }
    }

    private BookQuestion? Next()
    {
        lock (_lock)
        {
            return _questions.TryDequeue(out BookQuestion? question) ? question : null;
        }
    }
}
