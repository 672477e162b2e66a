using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Journal;

namespace CureWatch.Service.Tests.Pump;

public sealed class RecoveryTests : IDisposable
{
    private readonly Entries _entries = new();

    public void Dispose() => _entries.Dispose();

    [Fact]
    public void Entry_ThatDoesNotFitWhatCameBefore_IsToldByItsNumber()
    {
        _entries.Write([new Entry.EngineStarted("test"), new Entry.HandedOver("job-9", null, null)]);
        var recovery = new Recovery(LocalDisk.Instance, _entries.Journal, _entries.Codec);

        InvalidDataException e = Assert.Throws<InvalidDataException>(recovery.Run);

        Assert.StartsWith("entry 2 (HandedOver) does not fit what came before it: ", e.Message, StringComparison.Ordinal);
        Assert.Equal(1, recovery.Register.Sequence);
    }

    [Fact]
    public void Refusals_ForAReasonNobodyKnows_AreToldByTheirNumber()
    {
        _entries.Write([Folded.Shop(Commands.RecordedDay.Shop), new Entry.RefusalsCounted([new RefusalCount("whim", "bay-1/air", 1)])]);
        var recovery = new Recovery(LocalDisk.Instance, _entries.Journal, _entries.Codec);
        Assert.StartsWith("entry 2 (RefusalsCounted) ", Assert.Throws<InvalidDataException>(recovery.Run).Message, StringComparison.Ordinal);
    }
}
