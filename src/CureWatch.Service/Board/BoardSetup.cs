using CureWatch.Service.Api;
using CureWatch.Service.Certificates;
using CureWatch.Service.People;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Board;

/// <summary>Puts the pages, and the HTTP interface under them, into a host.</summary>
internal static class BoardSetup
{
    private static readonly PathString[] ScriptPaths = ["/api", "/health", "/openapi", "/assets"];

    public static IServiceCollection AddBoard(this IServiceCollection services) => services.AddSingleton<SharedPages>().AddApi().AddTongues().AddResponseCompression();

    public static WebApplication MapBoard(this WebApplication app)
    {
        app.UseResponseCompression(); // by plain HTTP, where nothing is hidden from whoever listens anyway: the phone in the bay has poor reception
        app.UseGuards();
        bool isSignedIn = app.Services.GetService<Staff>() is not null;
        if (isSignedIn)
        {
            app.UseMiddleware<Door>();
        }

        app.MapApi();
        app.Use(SayOnAPageAsync);
        BoardAssets.Map(app);
        BoardEndpoints.Map(app);
        BoardForms.Map(app);
        LearningPages.Map(app);
        WhatIfPages.Map(app);
        PlanPages.Map(app);
        TonguePages.Map(app);
        PhotoPages.Map(app);
        if (app.Services.GetService<ShopAuthority>() is not null)
        {
            CertificatePages.Map(app);
        }

        if (isSignedIn)
        {
            SignInPages.Map(app);
            PeoplePages.Map(app);
            PairPages.Map(app);
        }

        return app;
    }

    /// <summary>Whether a script asked, which wants a problem and no page.</summary>
    public static bool IsAskedByScript(HttpContext context) => ScriptPaths.Any(p => context.Request.Path.StartsWithSegments(p));

    /// <summary>A person who asked for a page that is not there, or told what the disk does not take, gets a page; a script gets its problem from below.</summary>
    private static async Task SayOnAPageAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
        }
        catch (Exception e) when (e is (IOException and not BadHttpRequestException) or UnauthorizedAccessException && !context.Response.HasStarted && !IsAskedByScript(context))
        {
            Api.Log.RequestFailed(context.RequestServices.GetRequiredService<ILogger<PlainProblems>>(), e, context.Request.Method, context.Request.Path);
            await BoardEndpoints.Plain(
                StatusCodes.Status503ServiceUnavailable, $"It could not be stored", $"{e.Message} What cannot be stored is not taken, and has to be told again.").ExecuteAsync(context);
        }

        if (context.Response is { HasStarted: false, StatusCode: StatusCodes.Status404NotFound, ContentType: null } && !IsAskedByScript(context))
        {
            await BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"Nothing is here", $"There is no such page.").ExecuteAsync(context);
        }
    }
}
