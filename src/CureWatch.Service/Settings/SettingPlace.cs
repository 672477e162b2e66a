namespace CureWatch.Service.Settings;

/// <summary>Where something a person wrote stands.</summary>
/// <param name="File">The file as the person named it, or <c>environment</c>.</param>
/// <param name="Place">A JSON Pointer (RFC 6901), or the variable's name.</param>
internal readonly record struct SettingPlace(string File, string Place);
