using System.Collections.Immutable;
using CureWatch.Curing;

namespace CureWatch.Bays;

/// <summary>When a surface last came in from where it takes the cold of outdoors, and since when somebody measures the air that warms it.</summary>
/// <param name="At">When it came in.</param>
/// <param name="MeasuredFrom">From when on its air was measured without a break; a bay in which nobody measures counts as warming nothing.</param>
/// <param name="IsAgain">Whether it had been in before: then what was told or read of it before says nothing any more.</param>
/// <param name="Stays">Where it has been since it is measured; none where nobody measures it.</param>
/// <remarks>Outside and the store count as outdoors however short the stay. Source (choice): a skin takes the cold in minutes, and a reading by hand says better.</remarks>
internal sealed record CameIn(DateTimeOffset At, DateTimeOffset MeasuredFrom, bool IsAgain, ImmutableArray<Stay> Stays)
{
    /// <summary>Looks where a surface went.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">Its job.</param>
    /// <param name="story">What people told of it.</param>
    /// <returns>When it came in; what is out now has not come in again.</returns>
    public static CameIn Of(Shop shop, JobState job, SurfaceStory story)
    {
        ImmutableArray<Stay> stays = Stay.Of(shop, job.Job, story);
        DateTimeOffset? again = stays.LastOrDefault(s => s.Bay is null && s.To > job.CameAt)?.To;
        DateTimeOffset at = again ?? job.CameAt, measuredFrom = stays.LastOrDefault(s => s.Point is null && s.To > at)?.To ?? at;
        return new CameIn(at, measuredFrom, again is not null, stays[^1].Point is null ? [] : [.. stays.Where(s => !(s.To <= measuredFrom))]);
    }

    /// <summary>Whether a surface is still to be coated as it came in: nothing has gone on since, and something has to.</summary>
    /// <param name="story">What people told of it.</param>
    /// <returns>True where how cold it came in matters.</returns>
    public bool Awaits(SurfaceStory story) => story.Coats.IsEmpty || (IsAgain && !story.Coats.Any(c => c.StartedAt >= At) && story.Missing().Any());
}
