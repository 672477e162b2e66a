using System.Globalization;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Service.Handbook;
using CureWatch.Service.People;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Tests.Handbook;

/// <summary>The numbers that the handbook says are those that the program goes by, in each language.</summary>
public class HandbookNumberTests
{
    public static TheoryData<string, string, string> Numbers => new()
    {
        {
            "people", $"{Pins.LeastOfTechnician} digits or more, a manager's {Pins.LeastOfManager} or more, {Pins.Most} at most",
            $"{Pins.LeastOfTechnician} Ziffern oder mehr, die der Leitung {Pins.LeastOfManager} oder mehr, höchstens {Pins.Most}."
        },
        { "pair-a-screen", $"{SignInDesk.AsLongAsACookie.TotalDays} days at most", $"höchstens {SignInDesk.AsLongAsACookie.TotalDays} Tage" },
        { "board", $"Below {SheetLimits.UsualSpreadMinK} K it is called close", $"Unter {SheetLimits.UsualSpreadMinK} K heißt es knapp" },
        { "wall", $"in the last {English(ClimateCourse.Reach.TotalHours)} hours", $"in den letzten {German(ClimateCourse.Reach.TotalHours)} Stunden" },
        { "wall", $"in the next {English(ClimateCourse.Reach.TotalHours)}.", $"in den nächsten {German(ClimateCourse.Reach.TotalHours)} zu erwarten" },
        { "phone", $"counts for {WorkHabits.Usual.PanelWipeValid.TotalMinutes} minutes", $"gilt das Entfetten {WorkHabits.Usual.PanelWipeValid.TotalMinutes} Minuten" },
        {
            "phone", $"{SecondLook.From.TotalMinutes} to {SecondLook.By.TotalMinutes} minutes after levelling",
            $"{SecondLook.From.TotalMinutes} bis {SecondLook.By.TotalMinutes} Minuten nach dem Abziehen"
        },
        { "phone", $"within {English(Untimely.UndoLimit.TotalMinutes)} minutes", $"binnen {German(Untimely.UndoLimit.TotalMinutes)} Minuten" },
        { "taps", $"up to {Untimely.Limit.TotalMinutes} minutes late", $"Bis zu {Untimely.Limit.TotalMinutes} Minuten zu spät" },
        { "taps", $"counts for {WorkHabits.Usual.PanelWipeValid.TotalMinutes} minutes", $"gilt {WorkHabits.Usual.PanelWipeValid.TotalMinutes} Minuten" },
        { "taps", $"needs {WorkHabits.Usual.WipeDries.TotalMinutes} to leave", $"braucht {WorkHabits.Usual.WipeDries.TotalMinutes} zum Verdunsten" },
        { "taps", $"up to {TapOfJob.LongestBatch} characters", $"bis zu {TapOfJob.LongestBatch} Zeichen" },
        { "phone", $"up to {PhotoDesk.MostBytes >> 20} MB is taken, and {PhotoRequests.MostOfACar} of a car", $"bis {PhotoDesk.MostBytes >> 20} MB, und {PhotoRequests.MostOfACar}" },
        { "undo", $"Within {English(Untimely.UndoLimit.TotalMinutes)} minutes", $"Binnen {German(Untimely.UndoLimit.TotalMinutes)} Minuten" },
        { "can-i-start", $"reckoned from −{-WorkHabits.Usual.ColdestArrivalC} °C", $"von −{-WorkHabits.Usual.ColdestArrivalC} °C an gerechnet" },
        { "can-i-start", $"({SheetLimits.UsualSpreadMinK} K where it does not say)", $"({SheetLimits.UsualSpreadMinK} K, wo es nichts sagt)" },
        { "promises", $"From {100 * PromiseAdvice.UsualTarget:0} % on", $"Ab {100 * PromiseAdvice.UsualTarget:0} % steht" },
        { "lamps", $"{HeatLimit.UnstatedC} °C for film and plastic", $"{HeatLimit.UnstatedC} °C für Folie und Kunststoff" },
        { "lamps", $"no more than {CoolDown.AboveAirK} K above the air", $"auf höchstens {CoolDown.AboveAirK} K über der Luft" },
        { "lamps", $"every {English(OwnReading.ReachOfSpot.TotalMinutes)} minutes", $"alle {German(OwnReading.ReachOfSpot.TotalMinutes)} Minuten" },
        { "lamps", $"burn for {English(LampSpell.Longest.TotalHours)} hours", $"bis {German(LampSpell.Longest.TotalHours)} Stunden" },
        { "lamps", $"told on again after more than {English(LampSpell.Doubled.TotalMinutes)}", $"nach mehr als {German(LampSpell.Doubled.TotalMinutes)} wieder als an" },
        {
            "lamps", $"comes {English(LampSpell.LongestUnread.TotalMinutes)} minutes after the lamp ({English(OwnReading.ReachOfSpot.TotalMinutes)} where",
            $"heizt {German(LampSpell.LongestUnread.TotalMinutes)} Minuten nach dem Strahler ({German(OwnReading.ReachOfSpot.TotalMinutes)}, wo"
        },
        { "lock-up", $"less than {100 * TonightReport.SafeBelow:0} % by the forecast", $"nach der Vorhersage weniger als {100 * TonightReport.SafeBelow:0} %" },
        { "lock-up", $"is told from {100 * TonightReport.WorthSaying:0} % on", $"wird ab {100 * TonightReport.WorthSaying:0} % gesagt" },
        {
            "infrared", $"with {Panels.PanelSpot.SuspectStandardK} K of doubt, on plastic, cloth, leather and rubber with {Panels.PanelSpot.StandardK} K",
            $"mit {Panels.PanelSpot.SuspectStandardK} K Unsicherheit, auf Kunststoff, Stoff, Leder und Gummi mit {Panels.PanelSpot.StandardK} K"
        },
        { "broker", $"more than {ProbeLog.LatestArrival.TotalMinutes} minutes late", $"mehr als {ProbeLog.LatestArrival.TotalMinutes} Minuten zu spät" },
        {
            "broker", $"from more than {English(ProbeLog.ClockTolerance.TotalMinutes)} minutes in the future",
            $"mehr als {German(ProbeLog.ClockTolerance.TotalMinutes)} Minuten aus der Zukunft"
        },
        { "day-plan", $"{English(BayQueues.Sight.TotalDays)} days ahead", $"{German(BayQueues.Sight.TotalDays)} Tage voraus" },
    };

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Number_IsTheOneTheProgramGoesBy(string chapter, string english, string german)
    {
        Assert.Contains(english, WordsOf(Language.English, chapter), StringComparison.Ordinal);
        Assert.Contains(german, WordsOf(Language.German, chapter), StringComparison.Ordinal);
    }

    private static string WordsOf(Language language, string chapter) =>
        string.Join(' ', HandbookText.In(language).Find(chapter)!.Sections.Select(s => $"{s.Heading} {s.Text}"));

    /// <summary>A number below a dozen, or half an hour of minutes, as it is written in a sentence.</summary>
    private static string English(double number) => number switch
    {
        2 => "two",
        4 => "four",
        5 => "five",
        7 => "seven",
        12 => "twelve",
        30 => "half an hour",
        _ => number.ToString(CultureInfo.InvariantCulture),
    };

    private static string German(double number) => number switch
    {
        2 => "zwei",
        4 => "vier",
        5 => "fünf",
        7 => "sieben",
        12 => "zwölf",
        30 => "einer halben Stunde",
        _ => number.ToString(CultureInfo.InvariantCulture),
    };
}
