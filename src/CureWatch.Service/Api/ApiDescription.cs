using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using CureWatch.Service.People;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace CureWatch.Service.Api;

/// <summary>
/// The description of the interface (OpenAPI 3.1). The paths come from what is mapped; the documents from our JSON Schemas, word for word, since
/// OpenAPI 3.1 speaks their dialect.
/// </summary>
internal static class ApiDescription
{
    private const string Version = "v1";

    public static void AddApiDescription(this IServiceCollection services) => services.AddOpenApi(Version, options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new OpenApiInfo { Title = "CureWatch", Version = Version, Description = About };
            document.Servers = [new OpenApiServer { Url = "/" }];
            document.Tags = null;
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            Describe(operation, context.Description.ActionDescriptor.EndpointMetadata, context.Document!);
            return Task.CompletedTask;
        });
    });

    public static void MapApiDescription(this WebApplication app)
    {
        var text = new Lazy<Task<byte[]>>(() => BuildAsync(app.Services.GetRequiredKeyedService<IOpenApiDocumentProvider>(Version)));
        app.MapGet("/openapi/v1.json", async () => Results.Bytes(await text.Value, JsonAnswer.Json)).ExcludeFromDescription().LetsScreens();
    }

    private const string About =
        "Times are ISO 8601, durations [d.]hh:mm:ss, temperatures °C, humidity % RH over liquid water, spread K. Every no is a problem of RFC 9457 "
        + "that names all faults. The service answers to its own host names only, and takes writes from its own pages, or as application/json without a "
        + "cookie from a client that is no browser. Where people sign in, every endpoint but health asks for the cookie that /sign-in gives (401, or 403 where the "
        + "role may not), and a write with a cookie for the Origin of this service.";

    private static void Describe(OpenApiOperation operation, IList<object> metadata, OpenApiDocument document)
    {
        operation.Tags = null;
        operation.Responses = [];
        foreach (Gives gives in metadata.OfType<Gives>().Append(new Gives(0, "problem", "Any other no.", Problem.ContentType)))
        {
            string status = gives.Status == 0 ? "default" : gives.Status.ToString(CultureInfo.InvariantCulture);
            operation.Responses.TryAdd(status, new OpenApiResponse
            {
                Description = gives.What,
                Content = Content(gives.ContentType, gives.Schema, document),
            });
        }

        foreach (Ask ask in metadata.OfType<Ask>())
        {
            JsonSchemaType type = ask.Kind == Ask.Whole ? JsonSchemaType.Integer : JsonSchemaType.String;
            operation.Parameters = [.. operation.Parameters ?? [], new OpenApiParameter
            {
                Name = ask.Name,
                In = ParameterLocation.Query,
                Description = ask.What,
                Schema = new OpenApiSchema { Type = type, Format = ask.Kind == Ask.Word ? null : ask.Kind },
            }];
        }

        if (metadata.OfType<Takes>().FirstOrDefault() is { } takes)
        {
            operation.RequestBody = new OpenApiRequestBody { Required = true, Content = Content(JsonAnswer.Json, takes.Schema, document) };
        }
    }

    private static Dictionary<string, OpenApiMediaType> Content(string contentType, string? schema, OpenApiDocument document) => new()
    {
        [contentType] = new OpenApiMediaType
        {
            Schema = schema is null ? new OpenApiSchema { Type = JsonSchemaType.String } : new OpenApiSchemaReference(schema, document),
        },
    };

    private static async Task<byte[]> BuildAsync(IOpenApiDocumentProvider provider)
    {
        OpenApiDocument document = await provider.GetOpenApiDocumentAsync(CancellationToken.None);
        JsonObject described = JsonNode.Parse(await document.SerializeAsJsonAsync(OpenApiSpecVersion.OpenApi3_1))!.AsObject();
        described["components"] = new JsonObject { ["schemas"] = Schemas() };
        return Encoding.UTF8.GetBytes(described.ToJsonString());
    }

    /// <summary>The answers' schemas and, with its parts, the job file's: what stood below <c>$defs</c> there stands beside it here.</summary>
    private static JsonObject Schemas()
    {
        JsonObject schemas = Resource("answers.schema.json");
        JsonObject jobFile = Resource("job.schema.json");
        JsonObject parts = jobFile["$defs"]!.AsObject();
        foreach (string key in ImmutableArray.Create("$schema", "$defs"))
        {
            jobFile.Remove(key);
        }

        foreach (string key in ImmutableArray.Create("$schema", LearntOfJob.Key))
        {
            jobFile["properties"]!.AsObject().Remove(key);
        }

        schemas["job-file"] = jobFile.DeepClone();
        foreach ((string name, JsonNode? part) in parts)
        {
            schemas[name] = part!.DeepClone();
        }

        return schemas;
    }

    private static JsonObject Resource(string name)
    {
        using Stream stream = typeof(ApiDescription).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        return JsonNode.Parse(reader.ReadToEnd().Replace("#/$defs/", "#/components/schemas/", StringComparison.Ordinal))!.AsObject();
    }
}
