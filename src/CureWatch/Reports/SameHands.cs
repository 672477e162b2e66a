using System.Collections.Immutable;
using CureWatch.Planning;

namespace CureWatch.Reports;

/// <summary>Says where two cars are worked on at the same time: each bay is lined up as if it had people of its own.</summary>
internal static class SameHands
{
    /// <summary>Says it, of the car that is begun later.</summary>
    /// <param name="bays">The bays as they are planned.</param>
    /// <param name="hours">The shop's hours and its present.</param>
    /// <returns>The bays, with a reason that is only noted: how many people there are nobody said, only how many work on a car.</returns>
    public static ImmutableArray<BayDay> Noted(ImmutableArray<BayDay> bays, ShopHours hours)
    {
        (string Bay, CarDay Car, LayerWork Layer)[] works = [.. from bay in bays from car in bay.Cars from layer in car.Work.Layers select (bay.Bay, car, layer)];
        return [.. bays.Select(bay => bay with { Cars = [.. bay.Cars.Select(car => Noted(bay.Bay, car, works, hours))] })];
    }

    private static CarDay Noted(string bay, CarDay car, (string Bay, CarDay Car, LayerWork Layer)[] works, ShopHours hours)
    {
        (string Bay, CarDay Other, DateTimeOffset From, DateTimeOffset To)[] both =
        [
            .. from layer in car.Work.Layers
               from work in works
               where work.Bay != bay && IsBefore(work.Car, car) && work.Layer.BeginsAt < layer.DoneAt && layer.BeginsAt < work.Layer.DoneAt
               let starts = layer.BeginsAt > work.Layer.BeginsAt ? layer.BeginsAt : work.Layer.BeginsAt
               let ends = layer.DoneAt < work.Layer.DoneAt ? layer.DoneAt : work.Layer.DoneAt
               orderby starts
               select (work.Bay, work.Car, starts, ends),
        ];
        return both.Length == 0 ? car : car with { Asked = car.Asked with { Reasons = [.. car.Asked.Reasons, .. both.DistinctBy(b => b.Other.Job.Id).Select(Reason)] } };

        StartReason Reason((string Bay, CarDay Other, DateTimeOffset From, DateTimeOffset To) both) => new(
            StartReasonKind.SameHands,
            StartWeight.Notes,
            null,
            $"{both.Other.Job.Id} in {both.Bay} is worked on at the same time, {hours.Span(both.From, both.To)}.",
            $"Others have to work on one of the two, or one waits for the other.");
    }

    private static bool IsBefore(CarDay car, CarDay other) =>
        car.Work.BeginsAt != other.Work.BeginsAt ? car.Work.BeginsAt < other.Work.BeginsAt : string.CompareOrdinal(car.Job.Id, other.Job.Id) < 0;
}
