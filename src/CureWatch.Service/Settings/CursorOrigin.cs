namespace CureWatch.Service.Settings;

/// <summary>Where a document came from, for whoever has to find a fault again.</summary>
/// <param name="Of">Names the place of a JSON Pointer (RFC 6901).</param>
/// <param name="Faults">Where faults are kept.</param>
/// <param name="HoldsSecrets">Whether there are passwords in it, so that a fault shows no more than it must.</param>
internal sealed record CursorOrigin(Func<string, SettingPlace> Of, Faults Faults, bool HoldsSecrets);
