using CureWatch.Service.Backups;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

public class EntryNameTests
{
    [Theory]
    [InlineData("00000000000000000001.journal", 1L)]
    [InlineData("09223372036854775807.journal", long.MaxValue)]
    [InlineData("09223372036854775808.journal", null)] // no number of an entry: a start died of such a file
    [InlineData("99999999999999999999.journal", null)]
    [InlineData("0000000000000000000x.journal", null)]
    [InlineData("-0000000000000000001.journal", null)]
    [InlineData("0000000000000000001.journal", null)]
    [InlineData("00000000000000000001.journal.new", null)]
    public void Name_IsANumberOrNone(string file, long? expected) => Assert.Equal(expected, EntryName.In(file, ".journal"));

    [Fact]
    public void Number_IsWritten_AsItIsRead() => Assert.Equal(640, EntryName.In(EntryName.Of(640) + ".snapshot", ".snapshot"));

    [Theory]
    [InlineData("journal/99999999999999999999.journal")]
    [InlineData("snapshots/10000000000000000000.snapshot")]
    public void Archive_HoldsNoFileOfSuchAName(string name) => Assert.Null(ArchiveNames.RoleOf(name));
}
