namespace CureWatch.Service.Disk;

/// <summary>What a file is opened for.</summary>
internal enum FileUse
{
    /// <summary>It is read, whoever may write to it meanwhile.</summary>
    Read,

    /// <summary>It is read, and nobody else may have it open, nor hold its folder by another.</summary>
    ReadAlone,

    /// <summary>It is there, and is written.</summary>
    Write,

    /// <summary>It is made, and must not be there yet.</summary>
    Make,

    /// <summary>It is made, or emptied where it is there.</summary>
    MakeAnew,

    /// <summary>The same, and nobody but its owner may ever read it.</summary>
    MakeSecret,

    /// <summary>It is made where it is not there, and nobody else may have it open, nor hold its folder by another.</summary>
    Hold,
}
