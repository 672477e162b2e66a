using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;

namespace CureWatch.Service.Settings;

/// <summary>A shop as people write it: <c>shop.json</c>.</summary>
internal static class ShopFile
{
    private static readonly TimeSpan LongestFinishing = TimeSpan.FromDays(7);

    /// <returns>The shop, or null where the file holds a fault.</returns>
    public static ShopSettings? Read(string path, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Open(path, faults) is { } top && Shop(top) is { } shop && faults.Count == before ? shop : null;
    }

    /// <summary>Reads a document that is already here.</summary>
    public static ShopSettings? Parse(string name, ReadOnlySpan<byte> utf8, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Parse(name, utf8, faults) is { } top && Shop(top) is { } shop && faults.Count == before ? shop : null;
    }

    /// <summary>Reads a document that was taken once: what it says held, whatever is asked of a file today, and wherever its journal has come to.</summary>
    /// <returns>The shop, or null where not even that can be read.</returns>
    /// <remarks>A time zone that this machine does not know is taken to be UTC: until a file names another, the shop's nights are told by that clock.</remarks>
    public static ShopSettings? Recall(string name, ReadOnlySpan<byte> utf8, Faults faults) =>
        JsonFile.Parse(name, utf8, faults) is { } top ? Shop(top, TimeZoneInfo.Utc) : null;

    private static ShopSettings? Shop(JsonCursor top, TimeZoneInfo? otherwise = null)
    {
        if (!top.Keys(["shop", "timeZone", "bays"], "openHours", "finishing", "work"))
        {
            return null;
        }

        string? shop = top["shop"].Id();
        TimeZoneInfo? zone = Zone(top["timeZone"]) ?? otherwise;
        OpeningHours hours = HoursOfShop.Read(top["openHours"], zone ?? TimeZoneInfo.Utc);
        TimeSpan finishing = top["finishing"].Duration(TimeSpan.Zero, LongestFinishing) ?? TimeSpan.Zero;

        WorkHabits habits = WorkOfShop.Read(top["work"]);
        ImmutableArray<BayOfShop> bays = BayOfShop.ReadAll(top["bays"], shop ?? "", zone ?? TimeZoneInfo.Utc);
        return shop is null || zone is null
            ? null
            : new ShopSettings(new ShopPlan(shop, hours, finishing, [.. bays.Select(b => b.Plan)]) { Habits = habits }, [.. bays.SelectMany(b => b.Wiring)]);
    }

    private static TimeZoneInfo? Zone(JsonCursor place)
    {
        const string Allowed = "a time zone of the IANA database that this machine knows, such as Europe/Dublin";
        TimeZoneInfo? zone = null;
        _ = place.String(id => id.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(id, out zone), Allowed);
        return zone;
    }
}
