using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;

namespace CureWatch.Tests.Bays;

/// <summary>A test shop whose two bays share their air, with cars beside the one it has.</summary>
internal static class SharedAir
{
    public static TestShop Hall(double? hour = null, ImmutableArray<Equipment>? equipment = null, ProductSheet? sheet = null)
    {
        TestShop shop = new(sheet);
        ShopPlan plan = shop.Shop.Plan;
        return shop.Take(new Message.PlanChanged(
            plan with { Bays = [.. plan.Bays.Select(b => b with { Airspace = "hall", Equipment = equipment ?? [] })] }, TestShop.At(hour ?? 0)));
    }

    /// <summary>The same climate in both bays, by the minute.</summary>
    public static TestShop Both(this TestShop shop, double fromHour, double toHour)
    {
        for (int minute = (int)Math.Round(fromHour * 60); minute <= Math.Round(toHour * 60); minute++)
        {
            shop.Read(minute / 60.0, 20, 50).Read(minute / 60.0, 20, 50, bay: "bay-2");
        }

        return shop;
    }

    public static TestShop Car(this TestShop shop, string id, string bay, double hour, Visit? visit = null, DateTimeOffset? promisedAt = null, int layers = 1) => shop.Take(
        new Message.JobStarted(
            new Job(id, bay, null, promisedAt, [new Surface("roof", Material.Steel, null, Place.Outside, "paint", 1, layers, 1)]) { Visit = visit }, TestShop.At(hour)));

    public static TestShop Told(this TestShop shop, string job, double hour, Did did) =>
        shop.Take(new Message.Tapped(job, new Tap($"{job}-{did}-{hour}", TestShop.At(hour), TestShop.At(hour), null, did)));

    public static TestShop Planned(this TestShop shop, HarmfulWork work, double from, double to, double hour, string id = "work-1", string bay = "bay-2") =>
        shop.Take(new Message.WorkPlanned(new PlannedWork(id, bay, work, TestShop.At(from), TestShop.At(to), null, null), TestShop.At(hour)));
}
