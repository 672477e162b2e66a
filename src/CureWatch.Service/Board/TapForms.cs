using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CureWatch.Curing;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tongues;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Reads a form that tells a tap, and says it as the JSON it stands for.</summary>
internal static class TapForms
{
    /// <summary>What a form says where somebody has to name a section and means all of them.</summary>
    public const string EverySection = "all";

    private const string Press = "press", Pressed = "pressedAt", Sent = "sentAt", PressedFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    /// <summary>What tells two taps of one page apart.</summary>
    private static readonly string[] Named =
        ["did", "surface", "layer", "section", "panelC", "unit", "toBay", "corrects", "at", "doneAt", "begunAt", "promisedAt", "batch"];

    /// <summary>What was on its way for no longer than this happened now. Source (choice): as the phone has it of what waits.</summary>
    private static readonly TimeSpan Prompt = TimeSpan.FromSeconds(3);

    private static readonly TimeSpan LongestAgo = TimeSpan.FromDays(1);

    /// <summary>How far apart the same button of the same page is still one press. Source (choice): as long as a slip is taken back.</summary>
    private static readonly TimeSpan SamePress = TimeSpan.FromMinutes(2);

    /// <summary>Tells the tap of a form.</summary>
    /// <returns>How that went; null where it was no form, or there is no shop yet.</returns>
    public static async Task<FormAnswer?> TellAsync(string job, HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await BoardForms.FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return null;
        }

        if (Visitor.Of(context).Name is { } name && form["who"].ToString() is { Length: > 0 } who && who != name)
        {
            return new FormAnswer(look, StatusCodes.Status401Unauthorized, [$"{who} pressed it, and {name} is signed in here now."]);
        }

        string id = IdOf(form);
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        string pressed = PressedText(form, look.At);
        if (PressedAt(pressed, look.At) is not { } pressedAt || At(form, pressedAt, clock) is not { } at || StartedAt(look, job, form, at, clock) is not { } startedAt)
        {
            return new FormAnswer(look, StatusCodes.Status400BadRequest, [$"When: a number of minutes up to 1440, or a time that the shop's clocks show."]);
        }

        if (LayerToName(look, job, form) is { } which)
        {
            return new FormAnswer(look, StatusCodes.Status400BadRequest, [which]) { At = at };
        }

        Answer answer = await AskAsync(id);
        Look after = lookout.Now() ?? look;
        if (answer is Answer.Stored or Answer.Repeated || Told(id) is not { } told)
        {
            return Said(answer);
        }

        if ((at - told.At).Duration() <= SamePress)
        {
            return new FormAnswer(after, StatusCodes.Status303SeeOther, []); // pressed twice, or by two: the second says another time under the same id
        }

        if (form[Press].ToString() is not { Length: > 0 } press)
        {
            return new FormAnswer(after, BoardForms.StatusOf(answer), [$"Somebody told the same before. If you did it once more, press again: what you see now is new."]) { At = at };
        }

        id = Fitted($"p{press}");
        answer = await AskAsync(id);
        after = lookout.Now() ?? look;
        return Told(id) is null ? Said(answer) : new FormAnswer(after, StatusCodes.Status303SeeOther, []);

        Task<Answer> AskAsync(string id) => inbox.AskAsync(new Arrival.Tap("form", job, Signature.On(Tap(form, id, at, startedAt, pressed), context)), context.RequestAborted);
        Tap? Told(string id) => after.Shop.Find(job)?.Told.FirstOrDefault(t => t.Id == id);
        FormAnswer Said(Answer answer) => answer is Answer.Stored or Answer.Repeated
            ? new FormAnswer(after, StatusCodes.Status303SeeOther, [])
            : new FormAnswer(after, BoardForms.StatusOf(answer), FaultWords.Of(answer, clock)) { At = at };
    }

    /// <summary>
    /// Without a layer these two mean the first, on which nobody means to begin anew by leaving a field empty. A push-button names none, and what is put right
    /// of such a tap is not its layer.
    /// </summary>
    private static Sentence? LayerToName(Look look, string job, IFormCollection form)
    {
        string surface = form["surface"].ToString().Trim();
        bool namedNone = look.Shop.Find(job)?.Told.FirstOrDefault(t => t.Id == form["corrects"]) is { Layer: null } told and ({ Did: Did.Applied } or { How: How.PolishedOff })
            && (told.Surface ?? "") == surface;
        return !namedNone && form["layer"].ToString().Trim().Length == 0 && form["did"].ToString() is ("applied" or "reworked:polished-off")
            && look.Shop.Find(job)?.Job.Surfaces.FirstOrDefault(s => s.Layers > 1 && (surface.Length == 0 || s.Id == surface)) is { } several
                ? (Sentence)$"Layer: which of the {several.Layers} of {several.Name}"
                : null;
    }

    /// <summary>
    /// The tap's id: what was pressed, and how many taps there were when the page was made. So a button pressed twice, a form sent again by a
    /// reload, or two phones beside one coat tell one tap. Only where that was told at another time does the press itself name it.
    /// </summary>
    private static string IdOf(IFormCollection form) => Fitted(string.Join(
        '-', Named.Select(name => form[name].ToString().Trim().Replace(':', '-')).Where(part => part.Length > 0).Prepend($"b{form["number"]}")));

    private static string Fitted(string id) => id.Length <= TapOfJob.LongestId && !id.Any(c => char.IsWhiteSpace(c) || char.IsControl(c))
        ? id
        : $"b{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(id)))}"[..TapOfJob.LongestId];

    /// <summary>
    /// When the button was pressed, as its page says: one that could not reach the service, or one whose tap was on its way for longer than a moment, since
    /// the service or the network hung. Nothing where it was now.
    /// </summary>
    private static string PressedText(IFormCollection form, DateTimeOffset now)
    {
        string waited = form[Pressed].ToString(), sent = form[Sent].ToString();
        return waited.Length > 0 ? waited : PressedAt(sent, now) is { } at && now - at > Prompt ? sent : "";
    }

    /// <returns>The instant, now where there is no text; null where what was sent is none.</returns>
    private static DateTimeOffset? PressedAt(string text, DateTimeOffset now)
    {
        bool isInstant = DateTimeOffset.TryParseExact(text, PressedFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at);
        return text.Length == 0 ? now : isInstant ? at : null;
    }

    /// <returns>When it was done; null where what was sent is no number of minutes, and no time of the shop's clocks.</returns>
    private static DateTimeOffset? At(IFormCollection form, DateTimeOffset pressedAt, ShopClock clock)
    {
        string ago = form["ago"].ToString(), doneAt = form["doneAt"].ToString(), at = form["at"].ToString();
        bool isNumber = int.TryParse(ago, NumberStyles.None, CultureInfo.InvariantCulture, out int minutes);
        return at.Length > 0 ? Instants.TryParse(at, out DateTimeOffset same) ? same : null
            : doneAt.Length > 0 ? clock.Read(doneAt)
            : ago.Length == 0 ? pressedAt
            : isNumber ? minutes <= LongestAgo.TotalMinutes ? pressedAt - TimeSpan.FromMinutes(minutes) : null
            : Instants.TryParse(ago, out DateTimeOffset chosen) ? chosen : null; // of a form that is filled in again
    }

    private static ReadOnlyMemory<byte> Tap(IFormCollection form, string id, DateTimeOffset at, string startedAt, string pressed) => JsonAnswer.Utf8Of(json =>
    {
        string[] did = form["did"].ToString().Split(':');
        json.WriteStartObject();
        json.WriteString("id", id);
        json.WriteInstant("at", at);
        StartForms.Given(json, "reportedAt", pressed);
        json.WriteString("did", did[0]);
        if (did.Length > 1)
        {
            json.WriteString(did[0] == "inspected" ? "found" : "how", did[1]);
        }

        StartForms.Given(json, "surface", form["surface"].ToString());
        StartForms.Number(json, "layer", form["layer"].ToString());
        StartForms.Number(json, "section", form["section"] == EverySection ? "" : form["section"].ToString());
        StartForms.Given(json, "promisedAt", form["promisedAt"].ToString());
        StartForms.Given(json, "startedAt", startedAt);
        StartForms.Given(json, "toBay", form["toBay"].ToString());
        StartForms.Given(json, "corrects", form["corrects"].ToString());
        Batch(json, did[0], form);
        StartForms.Given(json, "note", form["note"].ToString().Trim());
        TypedNumber.Write(json, form["unit"] == TongueOfRequest.FahrenheitSign ? "panelF" : "panelC", form["panelC"].ToString());
        StartForms.Given(json, "by", form["by"].ToString().Trim());
        json.WriteEndObject();
    });

    /// <summary>
    /// Whoever corrects the end of a wipe to before its beginning means all of it; otherwise level-by still counts from the first wipe that was told, or
    /// that is told now: a wall clock knows seconds, and what it shows unchanged is the same instant.
    /// </summary>
    /// <returns>The instant, nothing for none; null where what was sent is no time.</returns>
    private static string? StartedAt(Look look, string job, IFormCollection form, DateTimeOffset at, ShopClock clock)
    {
        string told = form["startedAt"].ToString(), begunAt = form["begunAt"].ToString();
        if (form.ContainsKey("begunAt"))
        {
            return begunAt.Length == 0 ? ""
                : clock.Read(begunAt) is not { } read ? null
                : Instants.TryParse(told, out DateTimeOffset same) && (same - read).Duration() < TimeSpan.FromSeconds(1) ? told
                : UtcText.Of(read);
        }

        Tap? corrected = look.Shop.Find(job)?.Told.FirstOrDefault(t => t.Id == form["corrects"]);
        return corrected is { StartedAt: { } begun, At: var ended } && begun > at && told.Length > 0 ? UtcText.Of(at - (ended - begun)) : told;
    }

    /// <summary>Whoever empties the field says that nobody knows the batch; who leaves it empty says nothing.</summary>
    private static void Batch(Utf8JsonWriter json, string did, IFormCollection form)
    {
        string batch = form["batch"].ToString().Trim();
        if (did == "applied" && (batch.Length > 0 || form["batchBefore"].ToString().Length > 0))
        {
            json.WriteString("batch", batch);
        }
    }
}
