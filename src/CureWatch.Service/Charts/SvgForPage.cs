using System.Text.RegularExpressions;
using System.Xml.Linq;
using OxyPlot;

namespace CureWatch.Service.Charts;

/// <summary>Makes a drawing part of a page: its inks become classes, for the content security policy forbids styles, and the dark has other colours.</summary>
internal static partial class SvgForPage
{
    private static readonly string[] Fonts = ["font-family", "font-size", "font-weight", "fill"];

    /// <summary>A colour nobody sees, by which an ink is known again in the drawing.</summary>
    public static OxyColor Marked(Ink ink) => OxyColor.FromRgb(1, 0, (byte)ink);

    /// <summary>The name of an ink in the style sheet.</summary>
    public static string ClassOf(Ink ink) => $"ink{WordStart().Replace($"{ink}", m => $"-{m.Value.ToLowerInvariant()}")}";

    /// <param name="svg">The drawing as it comes.</param>
    /// <param name="title">What it shows, in a few words.</param>
    /// <param name="text">The same in a sentence or two.</param>
    /// <param name="id">Tells it from the others on the page.</param>
    public static string Of(XElement svg, string title, string text, string id)
    {
        svg.SetAttributeValue("viewBox", $"0 0 {svg.Attribute("width")!.Value} {svg.Attribute("height")!.Value}");
        foreach (string name in (string[])["width", "height", "version"])
        {
            svg.SetAttributeValue(name, null);
        }

        XNamespace space = svg.Name.Namespace;
        foreach (XElement element in svg.Descendants())
        {
            Dress(element, id);
        }

        svg.SetAttributeValue("class", "chart");
        svg.SetAttributeValue("role", "img");
        svg.SetAttributeValue("aria-labelledby", $"{id}-title {id}-text");
        svg.AddFirst(
            new XElement(space + "title", new XAttribute("id", $"{id}-title"), title),
            new XElement(space + "desc", new XAttribute("id", $"{id}-text"), text));
        return svg.ToString(SaveOptions.DisableFormatting);
    }

    private static void Dress(XElement element, string id)
    {
        if (element.Attribute("style") is { } style)
        {
            bool isFilled = !style.Value.Contains("fill:none", StringComparison.Ordinal);
            string ink = MarkedInk().Match(style.Value) is { Success: true } marked ? ClassOf((Ink)int.Parse(marked.Groups[1].Value, null)) : "";
            element.SetAttributeValue("class", $"{(isFilled ? "area" : "stroke")} {ink}".TrimEnd());
            style.Remove();
        }

        foreach (string font in element.Name.LocalName == "text" ? Fonts : [])
        {
            element.SetAttributeValue(font, null);
        }

        if (element.Name.LocalName == "clipPath")
        {
            element.SetAttributeValue("id", $"{id}-{element.Attribute("id")!.Value}");
        }

        if (element.Attribute("clip-path") is { } clip)
        {
            clip.Value = clip.Value.Replace("#", $"#{id}-", StringComparison.Ordinal);
        }
    }

    [GeneratedRegex("[A-Z]")]
    private static partial Regex WordStart();

    [GeneratedRegex(@"rgb\(1,0,(\d+)\)")]
    private static partial Regex MarkedInk();
}
