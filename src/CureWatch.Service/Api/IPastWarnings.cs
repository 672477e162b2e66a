using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>Where warnings that are over are looked up.</summary>
internal interface IPastWarnings
{
    /// <returns>The newest ones with their numbers, the newest first.</returns>
    IReadOnlyList<(int Number, Warning Warning)> Newest(int most);
}
