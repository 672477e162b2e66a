namespace CureWatch.Service.Tests.Settings;

/// <summary>A folder for one test, gone with it.</summary>
internal sealed class Written : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");

    public string Folder => _folder.FullName;

    public string File(string name, string text)
    {
        string path = Path.Combine(Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        System.IO.File.WriteAllText(path, text);
        return path;
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
