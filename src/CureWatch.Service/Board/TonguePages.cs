using CureWatch.Service.People;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Board;

/// <summary>Takes in how whoever asks wants to be spoken to.</summary>
internal static class TonguePages
{
    public const string Path = "/tongue";

    public static void Map(IEndpointRouteBuilder app) => app.MapPost(Path, (Delegate)ChooseAsync).ExcludeFromDescription().LetsEverybody();

    private static async Task<IResult> ChooseAsync(HttpContext context)
    {
        if (await BoardForms.FormAsync(context) is not { } form)
        {
            return BoardForms.NoForm();
        }

        string? language = Language.Find(form["language"])?.Code;
        string? degrees = form["degrees"].ToString() is "C" or TongueOfRequest.FahrenheitSign ? form["degrees"].ToString() : null;
        TongueOfRequest.Keep(context, new TongueChoice(language, degrees));
        return BoardForms.SeeOther(context, SignInPages.ThenOf(form["then"]));
    }
}
