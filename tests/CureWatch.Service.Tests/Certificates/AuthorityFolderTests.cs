using CureWatch.Service.Certificates;
using CureWatch.Service.Disk;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Certificates;

public sealed class AuthorityFolderTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly Written _written = new();

    private string File => Path.Combine(_written.Folder, AuthorityFolder.Name, "authority.p12");

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Authority_IsMadeOnce_AndStaysThePhones()
    {
        string first = FingerprintFor(Now, "board.example");
        Assert.Equal(first, FingerprintFor(Now.AddYears(3), "board.example"));
        Assert.Equal(first, FingerprintFor(Now, "board.example", "192.168.1.9"));
        Assert.Equal(first, FingerprintFor(Now));
    }

    [Fact]
    public void Authority_ThatCannotVouchForANewName_IsMadeAnew()
    {
        string first = FingerprintFor(Now, "board.example");
        string second = FingerprintFor(Now, "board.example", "other.example");
        Assert.NotEqual(first, second);
        Assert.Equal(second, FingerprintFor(Now, "board.example", "other.example"));
    }

    [Fact]
    public void Authority_ThatEndsBeforeACertificateOfItsWould_IsMadeAnew()
    {
        string first = FingerprintFor(Now);
        Assert.Equal(first, FingerprintFor(Now.AddYears(10).AddDays(-398)));
        Assert.NotEqual(first, FingerprintFor(Now.AddYears(10).AddDays(-396)));
    }

    [Fact]
    public void Authority_StaysThePhones_WhateverTheClockOnceSaid()
    {
        string first = FingerprintFor(Now);
        Assert.Equal(first, FingerprintFor(DateTimeOffset.UnixEpoch)); // a computer without a battery for its clock
        Assert.NotEqual(first, FingerprintFor(Now.AddYears(30)));
        Assert.Equal(first, FingerprintFor(Now.AddDays(1)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("half a file")]
    public void FileThatIsNoAuthority_IsNamed_AndStays(string text)
    {
        _ = FingerprintFor(Now);
        System.IO.File.WriteAllText(File, text);
        InvalidDataException fault = Assert.Throws<InvalidDataException>(() => FingerprintFor(Now));
        Assert.Contains(File, fault.Message, StringComparison.Ordinal);
        Assert.Equal(text, System.IO.File.ReadAllText(File));
    }

    [Fact]
    public void Key_IsReadByItsOwnerAlone()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "files have no modes there");
        if (OperatingSystem.IsWindows())
        {
            return; // which the compiler wants to hear too
        }

        _ = FingerprintFor(Now);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, System.IO.File.GetUnixFileMode(File));
    }

    private string FingerprintFor(DateTimeOffset now, params string[] hosts)
    {
        using ShopAuthority authority = new AuthorityFolder(LocalDisk.Instance, _written.Folder).For(ServedName.All(hosts), now);
        return authority.Fingerprint;
    }
}
