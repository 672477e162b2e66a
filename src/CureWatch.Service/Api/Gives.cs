namespace CureWatch.Service.Api;

/// <summary>Says in the description of an endpoint what it answers.</summary>
/// <param name="Status">The status.</param>
/// <param name="Schema">The schema of the document, by its name in the description.</param>
/// <param name="What">When it does.</param>
/// <param name="ContentType">The media type.</param>
internal sealed record Gives(int Status, string? Schema, string What, string ContentType = JsonAnswer.Json);

/// <summary>Says in the description of an endpoint which document it takes.</summary>
/// <param name="Schema">The schema of the document, by its name in the description.</param>
internal sealed record Takes(string Schema);

/// <summary>Describes endpoints where they are mapped.</summary>
internal static class Describing
{
    public static RouteHandlerBuilder Gives(this RouteHandlerBuilder endpoint, string schema, string what, int status = StatusCodes.Status200OK) =>
        endpoint.WithMetadata(new Gives(status, schema, what));

    public static RouteHandlerBuilder Refuses(this RouteHandlerBuilder endpoint, int status, string what) =>
        endpoint.WithMetadata(new Gives(status, "problem", what, Problem.ContentType));

    public static RouteHandlerBuilder Asks(this RouteHandlerBuilder endpoint, string name, string kind, string what) =>
        endpoint.WithMetadata(new Ask(name, kind, what));

    public static RouteHandlerBuilder AsksForAPage(this RouteHandlerBuilder endpoint, int usual, int most) => endpoint
        .Asks("before", Ask.Whole, "What 'next' said on the page before.")
        .Asks("most", Ask.Whole, $"How many at most: 1 to {most}, {usual} where left out.");

    public static RouteHandlerBuilder AsksTheBook(this RouteHandlerBuilder endpoint) => endpoint
        .Refuses(StatusCodes.Status400BadRequest, "A parameter cannot be used, or there is none of that name; 'faults' names every fault.")
        .Refuses(StatusCodes.Status503ServiceUnavailable, "The book cannot be asked; 'detail' says why.");

    public static RouteHandlerBuilder RefusesUnknownJob(this RouteHandlerBuilder endpoint) =>
        endpoint.Refuses(StatusCodes.Status404NotFound, "No such job.");

    public static RouteHandlerBuilder RefusesWrites(this RouteHandlerBuilder endpoint, string schema) => endpoint
        .WithMetadata(new Takes(schema))
        .Refuses(StatusCodes.Status400BadRequest, "It cannot be used; 'faults' names every fault.")
        .Refuses(StatusCodes.Status403Forbidden, "The write comes from another origin.")
        .Refuses(StatusCodes.Status413PayloadTooLarge, "It is larger than anything taken here.")
        .Refuses(StatusCodes.Status415UnsupportedMediaType, "It is no application/json in UTF-8.")
        .Refuses(StatusCodes.Status503ServiceUnavailable, "It could not be stored; send it again.");
}
