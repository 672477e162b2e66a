namespace CureWatch.Service.Settings;

/// <summary>Says why a file that somebody named cannot be read, in words of people who name files.</summary>
internal static class Unreadable
{
    public static Fault At(string path, Exception why) => new(
        path,
        "file",
        why switch
        {
            FileNotFoundException or DirectoryNotFoundException => "no such file",
            ArgumentException => "no name of a file",
            UnauthorizedAccessException when Directory.Exists(path) => "a folder",
            _ => why.Message,
        },
        "a file that can be read");
}
