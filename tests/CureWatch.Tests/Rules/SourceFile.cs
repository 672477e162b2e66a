using System.Text.RegularExpressions;

namespace CureWatch.Tests.Rules;

/// <summary>A source file of this repository.</summary>
/// <param name="Path">Its path below the repository's root, with forward slashes.</param>
/// <param name="Lines">Its lines.</param>
internal sealed partial record SourceFile(string Path, string[] Lines)
{
    public string Text => string.Join('\n', Lines);

    /// <summary>The folders below its project, as a namespace has them; empty for a file beside the project.</summary>
    public string Room => string.Join('.', Path.Split('/')[2..^1]);

    public string? Namespace => Match(NamespaceLine());

    public IEnumerable<string> TypeNames => TypeName().Matches(Text).Select(m => m.Groups[1].Value);

    public static IReadOnlyList<SourceFile> Below(params string[] folders)
    {
        string root = Root();
        return
        [
            .. from folder in folders
               from path in Directory.EnumerateFiles(System.IO.Path.Combine(root, folder), "*.cs", SearchOption.AllDirectories)
               orderby path
               select new SourceFile(System.IO.Path.GetRelativePath(root, path).Replace('\\', '/'), File.ReadAllLines(path)),
        ];
    }

    private static string Root()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "CureWatch.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"No CureWatch.sln above {AppContext.BaseDirectory}.");
    }

    private string? Match(Regex pattern) => pattern.Match(Text) is { Success: true } match ? match.Groups[1].Value : null;

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex NamespaceLine();

    [GeneratedRegex(@"^\s*(?:(?:public|internal|private|protected|sealed|abstract|static|readonly|ref|partial|file) )*(?:record struct|record|class|struct|enum|interface) (\w+)", RegexOptions.Multiline)]
    private static partial Regex TypeName();
}
