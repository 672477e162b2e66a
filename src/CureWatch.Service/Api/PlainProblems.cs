using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.WebUtilities;

namespace CureWatch.Service.Api;

/// <summary>Gives a body to every no under <c>/api</c> and the like that has none, and to what nobody foresaw.</summary>
internal sealed class PlainProblems(RequestDelegate next, ILogger<PlainProblems> logger)
{
    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context);
        }
        catch (BadHttpRequestException e) when (!context.Response.HasStarted)
        {
            await Problem.Of(e.StatusCode, Sentence(e)).ExecuteAsync(context);
        }
        catch (OperationCanceledException e) when (e.InnerException is ConnectionAbortedException)
        {
            // Whoever asked has gone, or the service is stopping: nobody is there to be answered.
        }
        catch (Exception e) when (!context.Response.HasStarted && !context.RequestAborted.IsCancellationRequested)
        {
            Log.RequestFailed(logger, e, context.Request.Method, context.Request.Path);
            await Problem.Of(StatusCodes.Status500InternalServerError, "A fault of this program; its log says more.").ExecuteAsync(context);
        }

        HttpResponse response = context.Response;
        if (response is { HasStarted: false, StatusCode: >= StatusCodes.Status400BadRequest, ContentType: null })
        {
            await Problem.Of(response.StatusCode, DetailOf(context)).ExecuteAsync(context);
        }
    }

    private static string Sentence(BadHttpRequestException e) => e.StatusCode == StatusCodes.Status413PayloadTooLarge
        ? "The body is larger than anything this service takes."
        : e.Message;

    private static string DetailOf(HttpContext context) => context.Response.StatusCode switch
    {
        StatusCodes.Status404NotFound => "Nothing is here.",
        StatusCodes.Status405MethodNotAllowed => $"Allowed here: {context.Response.Headers.Allow}.",
        int other => ReasonPhrases.GetReasonPhrase(other),
    };
}
