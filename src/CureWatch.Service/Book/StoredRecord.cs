namespace CureWatch.Service.Book;

/// <summary>How a job stood when its car left: the document that <c>replay --json</c> would have printed then.</summary>
internal sealed class StoredRecord
{
    /// <summary>The job's id.</summary>
    public string Id { get; set; } = "";

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "handover-record";

    public string Json { get; set; } = "";
}
