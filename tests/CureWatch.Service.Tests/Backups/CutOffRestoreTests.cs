using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A restore that the power put an end to: it is begun anew, but not among anything else.</summary>
public sealed class CutOffRestoreTests : RestoredArchive
{
    [Theory]
    [InlineData("lock", true)]
    [InlineData("holiday.txt", false)]
    public void WhatItLeft_IsClearedAway_WhereItIsAlone(string beside, bool isRestored)
    {
        File.WriteAllBytes(Source, Forge(_ => { }));
        string left = Path.Combine(Target, "restoring", "journal");
        Directory.CreateDirectory(left);
        File.WriteAllText(Path.Combine(left, "half"), "cut off");
        File.WriteAllText(Path.Combine(Target, beside), "");
        Assert.Equal(isRestored, Restore.Of(LocalDisk.Instance, Source, Target, new Faults()) is not null);
        Assert.Equal(isRestored, !Directory.Exists(left));
    }
}
