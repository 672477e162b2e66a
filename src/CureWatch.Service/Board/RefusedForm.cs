using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What was filled into a form that was refused.</summary>
/// <param name="About">What the form is about: nothing for new work, else the id of the work or the job, or what is told of a car.</param>
/// <param name="Fields">The fields.</param>
public sealed record RefusedForm(string? About, IReadOnlyDictionary<string, string> Fields)
{
    /// <summary>The form by which something is told of a car, and the one by which it is handed over.</summary>
    public const string Tap = "tap", HandOver = "handover";

    /// <summary>Why it was refused.</summary>
    public IReadOnlyList<Sentence> Faults { get; init; } = [];

    /// <summary>When what it tells was done; null where it tells of no time that can be read.</summary>
    public Moment? DoneAt { get; init; }

    /// <summary>No form was refused.</summary>
    public static RefusedForm None { get; } = new(null, new Dictionary<string, string>());

    /// <summary>Keeps what was filled in.</summary>
    /// <param name="about">What the form is about.</param>
    /// <param name="form">The form.</param>
    /// <returns>The form, to be filled in again.</returns>
    public static RefusedForm Of(string about, IFormCollection form) => new(about, form.ToDictionary(f => f.Key, f => f.Value.ToString(), StringComparer.Ordinal));

    /// <summary>What was filled into a field of a form that was refused.</summary>
    /// <param name="about">What the form is about.</param>
    /// <param name="field">The field's name.</param>
    /// <returns>The text; null where it was another form, or none.</returns>
    public string? Filled(string about, string field) => About == about ? Fields.GetValueOrDefault(field) : null;

    /// <summary>What a field of a form shows: what was filled in where it was refused, else what is known.</summary>
    /// <param name="about">What the form is about.</param>
    /// <param name="field">The field's name.</param>
    /// <param name="known">What is known.</param>
    /// <returns>The text.</returns>
    public string Or(string about, string field, string known = "") => Filled(about, field) ?? known;
}
