using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Decides on what people ask of the learning, against the state of this moment.</summary>
internal static class LearningRequests
{
    private const int LongestText = 200;

    public static Decision OnReset(Register register, Arrival.LearningReset arrival)
    {
        var faults = new Faults();
        Entry.LearningReset? reset = JsonFile.Parse(arrival.Source, arrival.Utf8.Span, faults) is { } top ? Read(register.Shop!, top) : null;
        return faults.Count > 0 || reset is null
            ? Decision.Nothing(new Answer.Refused([.. faults.All]))
            : new Decision(Answer.Stored.Plain, [reset]);
    }

    private static Entry.LearningReset? Read(Shop shop, JsonCursor top)
    {
        _ = top.Keys(["product"], "bay", "by", "note");
        string[] products = [.. shop.Laws.Keys.Select(l => l.Product).Distinct().Order(StringComparer.Ordinal)];
        string[] bays = [.. shop.Bays.Ids.Order(StringComparer.Ordinal)];
        string? product = top["product"].String(products.Contains, $"a product with a sheet: {string.Join(", ", products)}");
        string? bay = top["bay"].String(bays.Contains, $"a bay of the shop: {string.Join(", ", bays)}");
        string? by = top["by"].Text(LongestText), note = top["note"].Text(LongestText);
        return product is null ? null : new Entry.LearningReset(product, bay, by, note);
    }
}
