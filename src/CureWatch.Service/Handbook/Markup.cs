using System.Text;
using CureWatch.Service.Board;
using Markdig;
using Markdig.Extensions.AutoIdentifiers;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace CureWatch.Service.Handbook;

/// <summary>Makes a page of a Markdown text (CommonMark, and boxes by <c>:::caution</c>). HTML in it is shown, not taken.</summary>
internal static class Markup
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .DisableHtml().UseAutoIdentifiers(AutoIdentifierOptions.GitHub).UseCustomContainers().Build();

    /// <param name="id">The page's place in the address.</param>
    /// <param name="text">The text; its first line is the title.</param>
    /// <param name="first">The same page in the language that was there first: heading by heading it lends its anchors, so that a link holds in both.</param>
    public static Chapter Read(string id, string text, Chapter? first = null)
    {
        MarkdownDocument page = Markdown.Parse(text, Pipeline);
        if (first is not null)
        {
            TakeAnchors(page, first);
        }

        foreach (LinkInline link in page.Descendants<LinkInline>())
        {
            if (link.IsImage)
            {
                link.Url = BoardAssets.Link(link.Url!);
                link.GetAttributes().AddProperty("loading", "lazy");
            }
            else if (link.Url is [not ('/' or '#'), ..] other)
            {
                link.Url = HandbookPages.AddressOf(other);
            }
        }

        Section[] sections = [.. SectionsOf(page)];
        page.RemoveAt(0); // the title stands above what the page has of its own
        return new Chapter(id, sections[0].Heading, page.ToHtml(Pipeline), sections);
    }

    /// <summary>The pages that the lists of a text name, in its order.</summary>
    public static IEnumerable<string> ListedIn(string text) =>
        Markdown.Parse(text, Pipeline).Descendants<ListItemBlock>().SelectMany(i => i.Descendants<LinkInline>()).Select(l => l.Url!);

    private static void TakeAnchors(MarkdownDocument page, Chapter first)
    {
        HeadingBlock[] headings = [.. page.Descendants<HeadingBlock>()];
        if (headings.Length != first.Sections.Count)
        {
            throw new InvalidOperationException($"'{first.Id}' has {headings.Length} headings here and {first.Sections.Count} in the language that was there first.");
        }

        foreach ((HeadingBlock heading, Section section) in headings.Zip(first.Sections).Skip(1))
        {
            heading.GetAttributes().Id = section.Anchor;
        }
    }

    private static IEnumerable<Section> SectionsOf(MarkdownDocument page)
    {
        (string Anchor, string Heading) at = ("", "");
        var words = new StringBuilder();
        foreach (LeafBlock block in page.Descendants<LeafBlock>())
        {
            if (block is not HeadingBlock heading)
            {
                words.Append(TextOf(block)).Append(' ');
                continue;
            }

            if (heading.Level > 1)
            {
                yield return new Section(at.Anchor, at.Heading, words.ToString().Trim());
                words.Clear();
            }

            at = (heading.Level > 1 ? heading.GetAttributes().Id ?? "" : "", TextOf(heading));
        }

        yield return new Section(at.Anchor, at.Heading, words.ToString().Trim());
    }

    private static string TextOf(LeafBlock block) => block.Inline is null
        ? block.Lines.ToString()
        : string.Concat(block.Inline.Descendants().Select(i => i switch
        {
            LiteralInline literal => literal.Content.ToString(),
            CodeInline code => code.Content,
            LineBreakInline => " ",
            _ => "",
        }));
}
