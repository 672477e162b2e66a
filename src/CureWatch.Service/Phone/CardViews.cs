using CureWatch.Bays;
using CureWatch.Service.Api;
using CureWatch.Service.Board;
using CureWatch.Service.Charts;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>Writes the card of a car. Its times carry their day: a card is read tomorrow too.</summary>
internal static class CardViews
{
    public static CardView Of(Look look, JobState state, string bay, Uri address)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        JobReport report = look.ReportOf(state);
        CoatReport[] living = [.. report.Surfaces.SelectMany(s => s.Coats).Where(c => c.Coat.EndedAt is null)];
        return new CardView(
            state.Job.Car ?? state.Job.Id,
            bay,
            string.Join(", ", look.BaysOf(state)),
            report.Ruling.KeepDry.Until is { } at ? Day(at) : null,
            report.Ruling.KeepDry.IsOver,
            [.. living.Select(c => c.Coat.Surface.Id).Distinct()],
            report.Next.Any(n => n.Act.Kind == Planning.ActKind.Apply),
            report.Ruling.Holds.Any(h => h.IsForPeople),
            report.Ruling.CollectFrom is { } collect ? Day(collect) : null,
            Day(look.At),
            address.AbsoluteUri,
            SquareCode.Of(address.AbsoluteUri),
            address.IsLoopback);

        Sentence Day(DateTimeOffset at) => $"{TimeZoneInfo.ConvertTime(at, clock.Zone):dddd d MMMM, HH:mm}";
    }
}
