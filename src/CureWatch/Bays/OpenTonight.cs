using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>The cars in a bay with something on them that has to stay dry, and of which the night is foretold.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Foretold">Those in the bay's own air, by job: for that air one looks ahead.</param>
/// <param name="Inside">Those of which only the air in the cabin or the engine bay is measured: nobody looks ahead for that.</param>
/// <param name="Unmeasured">Those of which nobody measures the air around what has to stay dry.</param>
/// <param name="Names">What people call them.</param>
internal sealed record OpenTonight(
    string Bay, ImmutableArray<string> Foretold, ImmutableArray<string> Inside, ImmutableArray<string> Unmeasured, Func<string, string> Names)
{
    /// <summary>Looks into a bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay.</param>
    public static OpenTonight In(Shop shop, BayState bay)
    {
        (string Job, Place? Air)[] open =
        [
            .. from job in shop.Jobs.Values
               where job.LeftAt is null
               from watched in job.Watched
               where !watched.IsDry && Stay.Of(shop, job.Job, watched.Story)[^1].Bay == bay.Plan.Bay
               select (job.Job.Id, watched.Point?.Air),
        ];
        ImmutableArray<string> Of(Func<Place?, bool> isSo) => [.. open.Where(o => isSo(o.Air)).Select(o => o.Job).Distinct().Order(StringComparer.Ordinal)];
        return new OpenTonight(
            bay.Plan.Bay,
            Of(a => a == Place.Outside),
            Of(a => a is not null and not Place.Outside),
            Of(a => a is null),
            j => shop.Find(j)?.Job.Car ?? j);
    }

    /// <summary>All of them, as people call them.</summary>
    public ImmutableArray<string> Cars => [.. Foretold.Concat(Inside).Concat(Unmeasured).Distinct().Select(Names)];

    /// <summary>Whether one looks ahead for any of them.</summary>
    public bool IsForetold => !Foretold.IsEmpty;

    /// <summary>Why nothing is known of any of them.</summary>
    public Sentence Unknown => IsForetold ? (Sentence)$"no air probe in {Bay} is heard."
        : !Unmeasured.IsEmpty ? (Sentence)$"nobody measures the air around what has to stay dry."
        : $"nothing is foretold of the air in a cabin or an engine bay.";

    /// <summary>Of which of them nothing is known, where it is of others; empty where it is of all.</summary>
    public Sentence Besides => Sentence.Join(" ", new[]
    {
        Of(Unmeasured, names => $"Not known for {names}: nobody measures the air around what has to stay dry."),
        Of([.. Inside.Except(Unmeasured)], names => $"Not known for {names}: nothing is foretold of the air in a cabin or an engine bay."),
    }.Where(s => !s.IsNone));

    private Sentence Of(ImmutableArray<string> jobs, Func<Sentence, Sentence> said)
    {
        ImmutableArray<string> others = [.. jobs.Except(Foretold).Select(Names)];
        return others.IsEmpty ? Sentence.None : said(Sentence.Names(" and ", others));
    }
}
