using System.Text;
using Microsoft.AspNetCore.Http.Features;

namespace CureWatch.Service.Api;

/// <summary>The body of a write.</summary>
internal static class Body
{
    /// <summary>The largest body [bytes]: a job of a hundred surfaces with the taps of a week is a tenth of it. Source (choice).</summary>
    public const int Most = 256 * 1024;

    /// <summary>
    /// Reads the whole body, without a byte order mark, which not everybody who reads it would skip; one that is larger ends the request with 413 before it
    /// is in memory.
    /// </summary>
    public static async Task<ReadOnlyMemory<byte>> ReadAsync(HttpContext context, int most = Most)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = most;
        }

        using var bytes = new MemoryStream();
        await context.Request.Body.CopyToAsync(bytes, context.RequestAborted);
        ReadOnlyMemory<byte> body = bytes.ToArray();
        return body.Span.StartsWith(Encoding.UTF8.Preamble) ? body[Encoding.UTF8.Preamble.Length..] : body;
    }
}
