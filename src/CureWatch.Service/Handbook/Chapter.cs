namespace CureWatch.Service.Handbook;

/// <summary>A page of the handbook.</summary>
/// <param name="Id">Its place in the address.</param>
/// <param name="Title">What it is about.</param>
/// <param name="Html">What stands below the title, made from text that ships with the program and nothing else.</param>
/// <param name="Sections">Its text in pieces, each below a heading of its own; the first is what stands below the title.</param>
public sealed record Chapter(string Id, string Title, string Html, IReadOnlyList<Section> Sections)
{
    public string Address => HandbookPages.AddressOf(Id);
}

/// <summary>What stands below one heading.</summary>
/// <param name="Anchor">Where on the page it begins; empty for its beginning.</param>
/// <param name="Heading">The heading; that of the page for its beginning.</param>
/// <param name="Text">Its words without any markup, headings left out.</param>
public sealed record Section(string Anchor, string Heading, string Text);
