using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.Board;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>The forms of the phone. They tell what those of the board tell, on the same way, and lead back to the phone.</summary>
internal static class PhoneForms
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/bay/{bay}/start", Begin).ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/bay/{bay}/jobs/{job}/taps", Tap).ExcludeFromDescription().LetsTechnicians();
    }

    private static async Task<IResult> Begin(string bay, HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await BoardForms.FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return BoardForms.NoForm();
        }

        IReadOnlyList<PickRow> rows = BeginForms.Read(form);
        StartForm filled = StartForms.Read(form) with { Bay = bay, Rows = [.. rows.Where(r => r.IsPicked).Select(r => r.Row)] };
        (string job, IReadOnlyList<Sentence> faults) = await BoardForms.StartAsync(filled, form, look, context, inbox);
        return faults.Count == 0
            ? BoardForms.SeeOther(context, PhonePages.CarAt(bay, job))
            : PhonePages.In(bay, lookout, after => PhonePages.Begin(BeginForms.View(after, bay, filled.Car, filled.Promised, rows, faults) with { LeftOut = [.. form["leftOut"].OfType<string>()] }));
    }

    private static async Task<IResult> Tap(string bay, string job, HttpContext context, Inbox inbox, Lookout lookout, BackupHealth backup) =>
        lookout.Now() is { } before && !PhonePages.IsSetUp(before, bay) ? PhonePages.NoBay(bay) // once it was told, it would lead on to no page
        : await TapForms.TellAsync(job, context, inbox, lookout) is not { } told ? BoardForms.NoForm()
        : told.Faults.Count == 0 ? BoardForms.SeeOther(context, PhonePages.CarAt(bay, job))
        : PhonePages.In(bay, lookout, look => PhonePages.Refused(look, backup, bay, job, told, context.Request.Form));
}
