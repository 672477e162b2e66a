using System.Globalization;
using System.Text.RegularExpressions;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Service.Board;
using CureWatch.Service.Documents;
using CureWatch.Service.Handbook;
using CureWatch.Service.People;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Handbook;

/// <summary>What the handbook says is there, leads somewhere, and says the numbers that the program goes by.</summary>
public partial class HandbookTextTests
{
    private static readonly HandbookText Text = HandbookText.Instance;

    private static IEnumerable<Chapter> Pages => Text.InOrder.Prepend(Text.Contents);

    public static TheoryData<string, string> Numbers => new()
    {
        { "people", $"{Pins.LeastOfTechnician} digits or more, a manager's {Pins.LeastOfManager} or more, {Pins.Most} at most" },
        { "pair-a-screen", $"{SignInDesk.AsLongAsACookie.TotalDays} days at most" },
        { "board", $"Below {SheetLimits.UsualSpreadMinK} K it is called close" },
        { "wall", $"in the last {Spelt(ClimateCourse.Reach.TotalHours)} hours" },
        { "wall", $"in the next {Spelt(ClimateCourse.Reach.TotalHours)}." },
        { "phone", $"counts for {WorkHabits.Usual.PanelWipeValid.TotalMinutes} minutes" },
        { "phone", $"{SecondLook.From.TotalMinutes} to {SecondLook.By.TotalMinutes} minutes after levelling" },
        { "phone", $"within {Spelt(Untimely.UndoLimit.TotalMinutes)} minutes" },
        { "taps", $"up to {Untimely.Limit.TotalMinutes} minutes late" },
        { "taps", $"needs {WorkHabits.Usual.WipeDries.TotalMinutes} to leave" },
        { "undo", $"Within {Spelt(Untimely.UndoLimit.TotalMinutes)} minutes" },
        { "can-i-start", $"reckoned from −{-WorkHabits.Usual.ColdestArrivalC} °C" },
        { "can-i-start", $"({SheetLimits.UsualSpreadMinK} K where it does not say)" },
        { "promises", $"From {100 * PromiseAdvice.UsualTarget:0} % on" },
        { "lamps", $"{HeatLimit.UnstatedC} °C for film and plastic" },
        { "lamps", $"no more than {CoolDown.AboveAirK} K above the air" },
        { "lamps", $"every {Spelt(OwnReading.ReachOfSpot.TotalMinutes)} minutes" },
        { "lamps", $"burn for {Spelt(LampSpell.Longest.TotalHours)} hours" },
        { "infrared", $"with {Panels.PanelSpot.SuspectStandardK} K of doubt, on plastic, cloth, leather and rubber with {Panels.PanelSpot.StandardK} K" },
        { "broker", $"more than {ProbeLog.LatestArrival.TotalMinutes} minutes late" },
        { "broker", $"from more than {Spelt(ProbeLog.ClockTolerance.TotalMinutes)} minutes in the future" },
        { "day-plan", $"{Spelt(DayPlan.Sight.TotalDays)} days ahead" },
    };

    [Fact]
    public void Contents_NameEveryTextThatShips() => Assert.Equal(HandbookText.Shipped.Order(), Text.InOrder.Select(s => s.Id).Append("contents").Order());

    [Fact]
    public void EveryPage_HasATitleOfItsOwn_AndText()
    {
        Assert.Equal(Text.InOrder.Count, Text.InOrder.Select(s => s.Title).Distinct().Count());
        Assert.All(Text.InOrder, s => Assert.True(s.Sections.Sum(p => p.Text.Length) > 300, s.Id));
    }

    [Fact]
    public void EveryLink_LeadsToAPage_AndAPlaceOnIt()
    {
        string[] links = [.. Pages.SelectMany(p => Link().Matches(p.Html).Select(m => m.Groups[1].Value))];
        Assert.True(links.Length > 50, $"{links.Length}");
        Assert.All(links, link => Assert.True(Leads(link), link));
    }

    [Fact]
    public void EveryPicture_ShipsAndIsSmall_AndSaysWhatItShows()
    {
        string[] pictures = [.. Pages.SelectMany(p => Picture().Matches(p.Html).Select(m => m.Value))];
        Assert.NotEmpty(pictures);
        Assert.All(pictures, picture => Assert.Matches("src=\"/assets/[0-9a-f]{12}/[a-z-]+\\.png\" loading=\"lazy\" alt=\"[^\"]{20,}\"", picture));
        Assert.All(
            typeof(HandbookText).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(".png", StringComparison.Ordinal)),
            name =>
            {
                using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream(name)!;
                Assert.InRange(stream.Length, 1_000, 60_000);
                Assert.Contains(pictures, p => p.Contains($"/{name}\"", StringComparison.Ordinal));
            });
    }

    // The content security policy forbids styles, scripts and whatever comes from elsewhere.
    [Fact]
    public void NoPage_HasAStyle_AScript_OrAnythingFromElsewhere() => Assert.All(
        Pages, p => Assert.DoesNotMatch("style=|<script|<svg|(src|href)=\"(https?:|//)|{{", p.Html));

    [Fact]
    public void HtmlInAText_IsShownAndNotTaken() =>
        Assert.Contains("&lt;img src=x onerror=alert(1)&gt;", Markup.Read("x", "# T\n\n<img src=x onerror=alert(1)>\n").Html, StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Number_IsTheOneTheProgramGoesBy(string chapter, string words) => Assert.Contains(words, WordsOf(chapter), StringComparison.Ordinal);

    [Fact]
    public void EveryWarning_IsThereWithWhatToDo() => Assert.All(
        Enum.GetValues<WarningKind>(),
        kind =>
        {
            Section section = Text.Find("warnings")!.Sections.Single(s => s.Heading == BoardWords.Of(kind));
            Assert.Contains(AlarmRule.Of(kind).Action, section.Text, StringComparison.Ordinal);
        });

    [Fact]
    public void EveryHold_IsThereWithWhatLiftsIt() => Assert.All(
        Enum.GetValues<HoldKind>(),
        kind => Assert.Matches($"(?i){BoardWords.Of(kind)}: .{{20}}", WordsOf("car")));

    [Fact]
    public void EveryCautionOfTheService_IsAmongTheCautions() => Assert.All(
        new[] { Cautions.SolventVapour, Cautions.Lamp, Cautions.HeatAndShutDoors, Cautions.Airing },
        caution => Assert.Contains(caution.ReplaceLineEndings(" "), WordsOf("cautions"), StringComparison.Ordinal));

    private static bool Leads(string link)
    {
        string[] parts = link.Split('#');
        Chapter? page = parts[0] == "/handbook"
            ? Text.Contents
            : parts[0].StartsWith("/handbook/", StringComparison.Ordinal) ? Text.Find(parts[0]["/handbook/".Length..]) : null;
        return page is not null && (parts.Length == 1 || page.Sections.Any(s => s.Anchor == parts[1]));
    }

    private static string WordsOf(string chapter) => string.Join(' ', Text.Find(chapter)!.Sections.Select(s => $"{s.Heading} {s.Text}"));

    /// <summary>A number below a dozen as it is written in a sentence.</summary>
    private static string Spelt(double number) => number switch
    {
        2 => "two",
        4 => "four",
        5 => "five",
        7 => "seven",
        12 => "twelve",
        _ => number.ToString(CultureInfo.InvariantCulture),
    };

    [GeneratedRegex("href=\"([^\"]*)\"")]
    private static partial Regex Link();

    [GeneratedRegex("<img [^>]*>")]
    private static partial Regex Picture();
}
