namespace CureWatch.Tests.Rules;

public class SourceFileTests
{
    private const int LongestFile = 250;
    private static readonly string[] SaysNothing = ["Helper", "Util", "Common", "Manager"];
    private static readonly Dictionary<string, string> NamespaceOfProject = new()
    {
        ["src/CureWatch"] = "CureWatch",
        ["src/CureWatch.Service"] = "CureWatch.Service",
        ["tests/CureWatch.Tests"] = "CureWatch.Tests",
        ["tests/CureWatch.Service.Tests"] = "CureWatch.Service.Tests",
    };

    [Fact]
    public void Files_AreThere() => Assert.Contains(SourceFile.Below("src", "tests"), f => f.Path == "src/CureWatch/Units/Celsius.cs");

    [Fact]
    public void File_HasAtMost250Lines() => Assert.Empty(
        from file in SourceFile.Below("src", "tests")
        where file.Lines.Length > LongestFile
        select $"{file.Path}: {file.Lines.Length} lines");

    [Fact]
    public void Namespace_IsTheFolder() => Assert.Empty(
        from file in SourceFile.Below([.. NamespaceOfProject.Keys])
        let project = NamespaceOfProject[string.Join('/', file.Path.Split('/')[..2])]
        let expected = file.Room.Length == 0 ? project : $"{project}.{file.Room}"
        where file.Namespace != expected && !IsTopLevel(file)
        select $"{file.Path}: {file.Namespace}, expected {expected}");

    [Fact]
    public void Name_SaysWhatItIs() => Assert.Empty(
        from file in SourceFile.Below("src")
        from name in file.Path.Split('/').Concat(file.TypeNames)
        where SaysNothing.Any(word => name.Contains(word, StringComparison.OrdinalIgnoreCase))
        select $"{file.Path}: {name}");

    [Fact]
    public void TypeNames_AreFound() => Assert.Equal(
        ["ProductSheet", "ProductKind", "Carrier", "AfterWetting"],
        SourceFile.Below("src/CureWatch/Products").Single(f => f.Path.EndsWith("/ProductSheet.cs", StringComparison.Ordinal)).TypeNames);

    private static bool IsTopLevel(SourceFile file) => file.Path.EndsWith("/Program.cs", StringComparison.Ordinal) && file.Namespace is null;
}
