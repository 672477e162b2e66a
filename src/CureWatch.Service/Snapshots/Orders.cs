using System.Reflection;
using CureWatch.Readings;

namespace CureWatch.Service.Snapshots;

/// <summary>The orders collections are kept in, by name: those that a class of this program holds in a static field, and the usual ones.</summary>
internal static class Orders
{
    private const string Usual = "";

    private static readonly Dictionary<string, object> Known = Find();

    public static string NameOf<T>(IComparer<T> order) => NameOf(order, Comparer<T>.Default);

    public static string NameOf<T>(IEqualityComparer<T> order) => NameOf(order, EqualityComparer<T>.Default);

    /// <returns>The order; null for the usual one.</returns>
    public static T? Find<T>(string name)
        where T : class => name == Usual ? null : Known.GetValueOrDefault(name) as T ?? throw StateReader.Broken();

    /// <exception cref="NotSupportedException">No static field holds it, so nobody could find it again.</exception>
    private static string NameOf(object order, object usual)
    {
        if (ReferenceEquals(order, usual))
        {
            return Usual;
        }

        foreach ((string name, object known) in Known)
        {
            if (ReferenceEquals(known, order))
            {
                return name;
            }
        }

        throw new NotSupportedException($"{order.GetType()} is kept in no static field.");
    }

    private static Dictionary<string, object> Find()
    {
        var known = new Dictionary<string, object>(StringComparer.Ordinal) { ["ordinal"] = StringComparer.Ordinal };
        IEnumerable<FieldInfo> fields =
            from assembly in new[] { typeof(Trail<>).Assembly, typeof(Orders).Assembly }
            from type in assembly.GetTypes()
            where !type.ContainsGenericParameters
            from field in type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic)
            where field.IsInitOnly && field.FieldType.GetInterfaces().Any(IsOrder)
            select field;
        foreach (FieldInfo field in fields)
        {
            known.Add($"{field.DeclaringType}.{field.Name}", field.GetValue(null)!);
        }

        return known;
    }

    private static bool IsOrder(Type face) =>
        face.IsGenericType && face.GetGenericTypeDefinition() is var definition && (definition == typeof(IComparer<>) || definition == typeof(IEqualityComparer<>));
}
