using System.Globalization;
using System.Text.Json;
using System.Text;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Reads the form that starts a car, and says it as the job file it stands for.</summary>
internal static class StartForms
{
    public const int UsualRows = 6;
    public const int MostRows = 60;

    private const int LongestId = 40;

    public static StartView Blank(Look look, string bay) =>
        View(look, new StartForm("", bay, "", "", "", "", "", [.. Enumerable.Repeat(StartRow.Blank, UsualRows)]), []);

    public static StartView View(Look look, StartForm filled, IReadOnlyList<Sentence> faults)
    {
        var catalogue = look.Register.Settings.Catalogue;
        return new StartView(
            look.Shop.Plan.Shop,
            look.Shop.Plan.Hours.Zone.Id,
            [.. look.Shop.Plan.Bays.Select(b => b.Bay)],
            [.. catalogue.Sheets.Where(s => catalogue.Newest(s.Product) == s).Select(s => (s.Product, s.Name, (IReadOnlyList<string>)s.Cautions))],
            [.. catalogue.Sheets.Where(s => catalogue.Newest(s.Product) == s).Select(s => (s.Name, RestsOn(s)))],
            [.. Enum.GetValues<Material>().Select(WireName<Material>.Of)],
            [.. Enum.GetValues<Place>().Select(WireName<Place>.Of)],
            Documents.Cautions.SolventVapour,
            TroubleViews.Of(look),
            look.Register.Jobs.Count,
            filled,
            faults);
    }

    private static IReadOnlyList<(string Stage, Sentence Words)> RestsOn(ProductSheet sheet) =>
    [
        .. SheetFit.Of(sheet).Stages.Select(FitBasis.Of)
            .Select(b => (WireName<Stage>.Of(b.Stage).Replace('-', ' '), Sentence.Join(" ", b.Words))),
    ];

    public static StartForm Read(IFormCollection form)
    {
        int rows = Math.Min(MostRows, form["surface"].Count);
        string At(string key, int row) => row < form[key].Count ? form[key][row] ?? "" : "";
        return new StartForm(
            form["car"].ToString().Trim(),
            form["bay"].ToString(),
            form["promised"].ToString(),
            form["arrives"].ToString(),
            form["arrivesC"].ToString(),
            form["unit"].ToString(),
            form["planned"].ToString(),
            [
                .. Enumerable.Range(0, rows).Select(i => new StartRow(
                    At("surface", i), At("material", i), At("over", i), At("place", i), At("product", i), At("layers", i),
                    At("then", i), At("thenLayers", i), At("sections", i))),
            ]);
    }

    /// <summary>The job's id: the car's name, with a number where a job that was there when the form was opened has it.</summary>
    public static string IdOf(Look look, StartForm form, int jobNumber)
    {
        string id = Slug(form.Car) is { Length: > 0 } slug && Ids.Allows(slug) ? slug : "car";
        HashSet<string> taken = [.. look.Register.Jobs.Where(j => j.Value.Number < jobNumber).Select(j => j.Key)];
        for (int i = 2; taken.Contains(id); i++)
        {
            string end = $"-{i}";
            string start = Slug(form.Car) is { Length: > 0 } again ? again : "car";
            id = $"{start[..Math.Min(start.Length, LongestId - end.Length)]}{end}";
        }

        return id;
    }

    public static ReadOnlyMemory<byte> JobFile(StartForm form, string id, DateTimeOffset? promisedAt, ShopClock clock) => JsonAnswer.Utf8Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("job", id);
        json.WriteString("bay", form.Bay);
        Given(json, "car", form.Car);
        if (promisedAt is not null)
        {
            json.WriteInstant("promisedAt", promisedAt);
        }

        PlanPages.Visit(json, form.Arrives, form.ArrivesC, form.Unit, form.Planned, clock);
        json.WriteArray("surfaces", form.Rows.Where(r => !string.IsNullOrWhiteSpace(r.Surface)), row =>
        {
            json.WriteString("surface", Slug(row.Surface));
            json.WriteString("material", row.Material);
            if (row.Material == WireName<Material>.Of(Material.Film))
            {
                Given(json, "over", row.Over);
            }

            Given(json, "place", row.Place);
            if (row.Then.Length > 0)
            {
                json.WriteArray("system", [(row.Product, row.Layers), (row.Then, row.ThenLayers)], p => Product(json, p.Item1, p.Item2));
            }
            else
            {
                Product(json, row.Product, row.Layers);
            }

            Number(json, "sections", row.Sections);
        });
        json.WriteEndObject();
    });

    private static void Product(Utf8JsonWriter json, string product, string layers)
    {
        json.WriteString("product", product);
        Number(json, "layers", layers);
    }

    /// <summary>Writes a whole number as one, and anything else as it stands, so that it is refused by name.</summary>
    public static void Number(Utf8JsonWriter json, string name, string text)
    {
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            Given(json, name, text);
        }
    }

    public static void Given(Utf8JsonWriter json, string name, string text)
    {
        if (text.Length > 0)
        {
            json.WriteString(name, text);
        }
    }

    /// <summary>German letters as they are spelt without them.</summary>
    private static string? Spelt(char letter) => letter switch
    {
        'ä' => "ae",
        'ö' => "oe",
        'ü' => "ue",
        'ß' => "ss",
        _ => null,
    };

    /// <summary>What people write, in the letters of an id: "Bonnet, left" is <c>bonnet-left</c>.</summary>
    public static string Slug(string text)
    {
        var slug = new StringBuilder();
        foreach (char c in text.ToLowerInvariant())
        {
            if (char.IsAsciiLetterOrDigit(c))
            {
                slug.Append(c);
            }
            else if (Spelt(c) is { } letters)
            {
                slug.Append(letters);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        string whole = slug.ToString();
        return whole[..Math.Min(whole.Length, LongestId)].TrimEnd('-');
    }
}
