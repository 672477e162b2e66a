namespace CureWatch.Service.Pump;

/// <summary>The journal once more, for a book that is behind or begun anew.</summary>
internal interface IJournalSteps
{
    /// <summary>Every entry on disk after one of them, folded as it was when it came.</summary>
    /// <param name="sequence">The number of the entry before the first; 0 for all.</param>
    IEnumerable<Step> After(long sequence);
}
