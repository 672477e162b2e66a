using System.Security.Cryptography;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Book;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Commands;

/// <summary>A data folder that `verify` looks at.</summary>
internal sealed class VerifiedFolder : IDisposable
{
    public Pumped Pumped { get; } = new();

    public string Path => Pumped.Folder;

    public string BookPath => BookOpening.PathIn(DataFolder.BookOf(Path));

    public IEnumerable<Step> Steps =>
        new Recovery(LocalDisk.Instance, DataFolder.JournalOf(Path), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(Path)))).Steps();

    public void Dispose() => Pumped.Dispose();

    public async Task FillAsync()
    {
        await Pumped.Read(20, 50);
        await Pumped.StartJob();
        Pumped.Stop();
    }

    public void WriteBook(int entries) => Books.Write(Books.New(Made(DataFolder.BookOf(Path))), Steps.Take(entries));

    public void AssertWhole(string line)
    {
        Invocation run = Invocation.Of("verify", "--data", Path);
        Assert.Equal((0, line), (run.ExitCode, run.Output.Split('\n')[1]));
    }

    public void AssertDamaged(params string[] lines)
    {
        Invocation run = Invocation.Of("verify", "--data", Path);
        Assert.Equal((1, ""), (run.ExitCode, run.Error));
        Assert.Equal(lines, run.Output.TrimEnd().Split('\n'));
    }

    public static string Made(string folder) => Directory.CreateDirectory(folder).FullName;

    public static string Content(string folder) => string.Join(
        ' ', Directory.GetFiles(folder).Order(StringComparer.Ordinal).Select(f => System.IO.Path.GetFileName(f) + Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f)))));
}
