using CureWatch.Readings;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Mqtt;

/// <summary>What became of a message for one probe.</summary>
/// <param name="Reading">The reading; null where there is none.</param>
/// <param name="Refusal">Why there is none.</param>
/// <param name="SaysNothing">Whether none of the probe's fields is in the message, so that on a shared topic it may be about another.</param>
/// <remarks>The default is a refusal as malformed.</remarks>
internal readonly record struct Decoded(Entry.Reading? Reading, Disbelief Refusal, bool SaysNothing);
