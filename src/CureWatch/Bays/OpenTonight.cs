using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What has to stay dry in a bay, and of what of it the night is foretold.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Open">Every surface with a coat that is not dry: its car as people call it, and the air it is in; null where nobody measures that.</param>
internal sealed record OpenTonight(string Bay, ImmutableArray<(string Car, string Surface, Place? Air)> Open)
{
    /// <summary>Looks into every bay at once: not every car is looked at for each of a shop's thousands of bays.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>What has to stay dry, bay by bay.</returns>
    public static Func<string, OpenTonight> In(Shop shop)
    {
        ILookup<string, (string Car, string Surface, Place? Air)> open =
            (from job in shop.JobsInOrder
             where job.LeftAt is null
             from watched in job.Watched
             where !watched.IsDry
             let bay = Stay.Of(shop, job.Job, watched.Story)[^1].Bay
             where bay is not null
             select (bay, Open: (job.Job.Car ?? job.Job.Id, watched.Coat.Surface.Id, watched.Point?.Air)))
            .ToLookup(o => o.bay, o => o.Open, StringComparer.Ordinal);
        return bay => new OpenTonight(bay, [.. open[bay].Distinct()]);
    }

    /// <summary>The cars.</summary>
    public ImmutableArray<string> Cars => [.. Open.Select(o => o.Car).Distinct()];

    /// <summary>Those with something in the bay's own air: for that one looks ahead.</summary>
    public ImmutableArray<string> ForetoldCars => [.. Open.Where(o => o.Air == Place.Outside).Select(o => o.Car).Distinct()];

    /// <summary>Whether one looks ahead for any of it.</summary>
    public bool IsForetold => !ForetoldCars.IsEmpty;

    /// <summary>Why nothing is known of any of it.</summary>
    public Sentence Unknown => IsForetold ? (Sentence)$"no air probe in {Bay} is heard."
        : Open.Any(o => o.Air is null) ? (Sentence)$"nobody measures the air around what has to stay dry."
        : $"nothing is foretold of the air in a cabin or an engine bay.";

    /// <summary>Of what nothing is known, where something is of the rest.</summary>
    public Sentence Besides => Sentence.Join(" ", new[]
    {
        Of(Open.Where(o => o.Air is null), names => $"Not known for {names}: nobody measures the air around what has to stay dry."),
        Of(Open.Where(o => o.Air is not null and not Place.Outside), names => $"Not known for {names}: nothing is foretold of the air in a cabin or an engine bay."),
    }.Where(s => !s.IsNone));

    private static Sentence Of(IEnumerable<(string Car, string Surface, Place? Air)> open, Func<Sentence, Sentence> said)
    {
        Sentence[] names = [.. open.Select(o => (Sentence)$"{o.Surface} of {o.Car}")];
        return names.Length == 0 ? Sentence.None : said(Sentence.Join(", ", names));
    }
}
