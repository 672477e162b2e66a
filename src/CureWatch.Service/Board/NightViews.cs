using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts a bay's night into words.</summary>
internal static class NightViews
{
    /// <summary>How long after opening the morning is told of. Source (choice): by then everything was looked at.</summary>
    private static readonly TimeSpan MorningLasts = TimeSpan.FromHours(4);

    public static NightView? Of(Shop shop, string bay)
    {
        TonightReport tonight = TonightReport.Of(shop, bay);
        bool isMorning = shop.Plan.Hours.DayAt(shop.Now) is { } day && shop.Now < day.Opens + MorningLasts;
        MorningReport? morning = isMorning ? MorningReport.Of(shop, bay) : null;
        bool isTold = tonight.Verdict != TonightVerdict.NothingOpen;
        if (!isTold && morning is null or { Happened.IsEmpty: true, Water.IsEmpty: true, LookFirst.IsEmpty: true })
        {
            return null;
        }

        return new NightView(
            tonight.Verdict switch
            {
                TonightVerdict.AtRisk => Tone.Soon,
                TonightVerdict.Safe => Tone.Fine,
                TonightVerdict.Unknown => Tone.Unknown,
                _ => Tone.Info,
            },
            isTold ? tonight.Headline : null,
            tonight.Detail,
            tonight.OnCall,
            tonight.Doors,
            [.. Cautions.Beside(tonight.Ahead)],
            morning?.Text,
            [.. (morning?.LookFirst ?? []).Select(h => (Sentence)$"{h.Name}: {h.Hold.Text}")]);
    }
}
