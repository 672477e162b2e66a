using System.Globalization;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Service.Api;
using CureWatch.Service.Board;
using CureWatch.Service.Settings;
using CureWatch.Service.Tongues;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>Offers the surfaces a car usually has, and reads which of them were picked: a form of the board, filled by a thumb.</summary>
internal static class BeginForms
{
    /// <summary>Rows for what no list has. Source (choice).</summary>
    private const int OwnRows = 2;

    /// <summary>Products of one surface that the form tells.</summary>
    private const int MostProducts = 2;

    /// <summary>Cars that are offered to be taken over. Source (choice).</summary>
    private const int MostLike = 3;

    /// <param name="look">The shop.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="like">A job whose surfaces are taken over; null for none.</param>
    /// <param name="tongue">What the surfaces are called in.</param>
    public static BeginView Blank(Look look, string bay, string? like, Tongue tongue)
    {
        Surface[] all = [.. (like is null ? null : look.Shop.Find(like))?.Job.Surfaces ?? []];
        StartRow[] taken = [.. all.Where(s => s.Products().Count() <= MostProducts).Select(Of)];
        PickRow[] usual =
        [
            .. from row in Part.Usual.Select(p => Of(p with { Surface = StartForms.Slug(tongue.Phrase(p.Surface)) }, look.Register.Settings.Catalogue))
               let same = taken.FirstOrDefault(t => t.Surface == row.Surface)
               select PickOf(same ?? row, same is not null, isNamed: true),
        ];
        IEnumerable<PickRow> others = taken.Where(t => !usual.Any(u => u.Row.Surface == t.Surface)).Select(t => PickOf(t, isPicked: true, isNamed: true));
        IEnumerable<PickRow> own = Enumerable.Repeat(PickOf(StartRow.Blank, isPicked: true, isNamed: false), OwnRows);
        return View(look, bay, "", "", [.. others, .. usual, .. own], []) with
        {
            LeftOut = [.. all.Where(s => s.Products().Count() > MostProducts).Select(s => s.Id)],
        };
    }

    public static BeginView View(Look look, string bay, string car, string promised, IReadOnlyList<PickRow> rows, IReadOnlyList<Sentence> faults) => new(
        Frame.Of(look, new ShopClock(look.Shop.Plan.Hours.Zone, look.At)),
        bay,
        car,
        promised,
        rows,
        [.. look.Shop.JobsInOrder.Reverse().Take(MostLike).Select(j => (j.Job.Id, j.Job.Car ?? j.Job.Id))],
        StartForms.Blank(look, bay),
        faults);

    /// <summary>The rows as they were sent, each with whether it was picked.</summary>
    public static IReadOnlyList<PickRow> Read(IFormCollection form)
    {
        HashSet<string> picked = [.. form["pick"].OfType<string>()], over = [.. form["hasOver"].OfType<string>()];
        int named = int.TryParse(form["named"], NumberStyles.None, CultureInfo.InvariantCulture, out int count) ? count : 0;
        return [.. StartForms.Read(form).Rows.Select((row, i) => new PickRow(row, i >= named || picked.Contains($"{i}"), IsNamed: i < named, over.Contains($"{i}")))];
    }

    private static PickRow PickOf(StartRow row, bool isPicked, bool isNamed) => new(row, isPicked, isNamed, HasOver: row.Then.Length > 0);

    private static StartRow Of(Part part, Catalogue sheets)
    {
        ProductSheet? sheet = sheets.Sheets.LastOrDefault(s => s.Kind == part.Kind && sheets.Newest(s.Product) == s);
        string material = WireName<Material>.Of(part.Material);
        return StartRow.Blank with
        {
            Surface = part.Surface,
            Material = material,
            Over = part.Material == Material.Film ? "" : material,
            Place = WireName<Place>.Of(part.Place),
            Product = sheet?.Product ?? "",
            Sections = Invariant(part.Sections),
        };
    }

    private static StartRow Of(Surface surface)
    {
        ProductLayers[] system = [.. surface.Products()];
        return new StartRow(
            surface.Id,
            WireName<Material>.Of(surface.Material),
            surface.Over is { } over ? WireName<Material>.Of(over) : "",
            WireName<Place>.Of(surface.Place),
            system[0].Product,
            Invariant(system[0].Layers),
            system.Length > 1 ? system[1].Product : "",
            system.Length > 1 ? Invariant(system[1].Layers) : "1",
            Invariant(surface.Sections));
    }

    private static string Invariant(int number) => number.ToString(CultureInfo.InvariantCulture);
}
