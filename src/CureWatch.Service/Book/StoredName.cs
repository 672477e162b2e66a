using CureWatch.Service.Settings;

namespace CureWatch.Service.Book;

/// <summary>Reads the names of enum values back.</summary>
internal static class StoredName
{
    /// <exception cref="InvalidDataException">No value has that name.</exception>
    public static T Of<T>(string name)
        where T : struct, Enum =>
        WireName<T>.Find(name) ?? throw new InvalidDataException($"The book says '{name}'; known are {WireName<T>.All}.");
}
