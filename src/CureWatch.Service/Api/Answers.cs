using System.Diagnostics;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>The pump's answers in HTTP.</summary>
internal static class Answers
{
    /// <param name="answer">What the pump said.</param>
    /// <param name="yes">The answer to what was taken in; true where it had been before.</param>
    public static IResult Over(Answer answer, Func<bool, IResult> yes) => answer switch
    {
        Answer.Stored => yes(false),
        Answer.Repeated => yes(true),
        Answer.Refused a => Problem.Faulty(a.Faults),
        Answer.NoSuchJob a => Problem.Of(StatusCodes.Status404NotFound, $"No job '{a.Job}'."),
        Answer.Held a => Problem.Held(a.Holds),
        Answer.Unfit a => Problem.Of(StatusCodes.Status409Conflict, a.Why.ToString()),
        Answer.NotStored a => Problem.Of(StatusCodes.Status503ServiceUnavailable, $"Not stored, send it again: {a.Why}."),
        _ => throw new UnreachableException(answer.GetType().Name),
    };
}
