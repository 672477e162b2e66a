using System.Buffers;
using System.Text.Json;

namespace CureWatch.Service.Api;

/// <summary>An answer whose document is written by hand, so that it is the same here, on the command line and over MQTT.</summary>
internal sealed class JsonAnswer(int status, Action<Utf8JsonWriter> write, string contentType = JsonAnswer.Json) : IResult
{
    public const string Json = "application/json";

    /// <summary>Longer than a disk that is only slow takes. Source (choice).</summary>
    private const string ComeAgainAfterSeconds = "5";

    /// <summary>An answer with one object.</summary>
    public static JsonAnswer Object(Action<Utf8JsonWriter> write, int status = StatusCodes.Status200OK) => new(status, json =>
    {
        json.WriteStartObject();
        write(json);
        json.WriteEndObject();
    });

    public Task ExecuteAsync(HttpContext httpContext)
    {
        ReadOnlyMemory<byte> body = Utf8Of(write);
        httpContext.Response.StatusCode = status;
        if (status == StatusCodes.Status503ServiceUnavailable)
        {
            httpContext.Response.Headers.RetryAfter = ComeAgainAfterSeconds;
        }

        httpContext.Response.ContentType = contentType;
        httpContext.Response.ContentLength = body.Length;
        return httpContext.Response.Body.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }

    public static ReadOnlyMemory<byte> Utf8Of(Action<Utf8JsonWriter> write)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(bytes);
        write(json);
        json.Flush();
        return bytes.WrittenMemory;
    }
}
