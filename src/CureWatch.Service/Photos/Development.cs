using CureWatch.Words;

namespace CureWatch.Service.Photos;

/// <summary>What came of a picture that somebody sent.</summary>
internal abstract record Development
{
    private Development()
    {
    }

    /// <summary>A picture as it is kept: a JPEG, upright, with nothing in it but what is seen.</summary>
    internal sealed record Done(byte[] Jpeg, int WidthPx, int HeightPx) : Development;

    /// <summary>It cannot be taken.</summary>
    /// <param name="Seen">What was sent.</param>
    /// <param name="Allowed">What is allowed.</param>
    internal sealed record Refused(string Seen, Sentence Allowed) : Development
    {
        public Refused(string seen, string allowed)
            : this(seen, Sentence.Word(allowed))
        {
        }
    }
}
