using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;
using CureWatch.Readings;

namespace CureWatch.Service.Snapshots;

/// <summary>How each type of a state is written and read: by its fields, so that whatever the state comes to hold is in the snapshot.</summary>
/// <remarks>
/// Only types of this program, of its library and of a few collections: a file can name no other. What a snapshot was written by has to have
/// the same types with the same fields in the same order, which <see cref="Shape"/> tells.
/// </remarks>
internal sealed class Forms
{
    private readonly Dictionary<Type, IForm> _forms = [];

    /// <summary>The types met, each with its fields.</summary>
    public IEnumerable<string> Shape => _forms.Select(f => $"{f.Key}: {f.Value.Shape}").Order(StringComparer.Ordinal);

    public Form<T> Of<T>() => (Form<T>)Of(typeof(T));

    public IForm Of(Type type)
    {
        if (!_forms.TryGetValue(type, out IForm? form))
        {
            form = Make(type);
            _forms.Add(type, form);
            form.Complete(this);
        }

        return form;
    }

    private static IForm Make(Type type)
    {
        if (type == typeof(string))
        {
            return new TextForm();
        }

        if (type == typeof(TimeZoneInfo))
        {
            return new ZoneForm();
        }

        if (IsRaw(type))
        {
            return New(typeof(RawForm<>), type);
        }

        if (type.IsGenericType && Collection(type.GetGenericTypeDefinition()) is { } collection)
        {
            return New(collection, type.GetGenericArguments());
        }

        if (Nullable.GetUnderlyingType(type) is { } underlying)
        {
            return New(typeof(NullableForm<>), underlying);
        }

        bool isOurs = type.Assembly == typeof(Forms).Assembly || type.Assembly == typeof(Trail<>).Assembly;
        bool isPlain = type.IsGenericType && type.FullName!.StartsWith("System.ValueTuple`", StringComparison.Ordinal);
        return isOurs && type is { IsClass: true, IsAbstract: true } ? New(typeof(FamilyForm<>), type)
            : isOurs && type is { IsClass: true, IsSealed: true } && !typeof(Delegate).IsAssignableFrom(type) ? New(typeof(RecordForm<>), type)
            : type.IsValueType && (isOurs || isPlain) ? New(typeof(StructForm<>), type)
            : throw new NotSupportedException($"A state must not hold a {type}.");
    }

    private static Type? Collection(Type definition) =>
        definition == typeof(Trail<>) ? typeof(TrailForm<>)
        : definition == typeof(ImmutableArray<>) ? typeof(ArrayForm<>)
        : definition == typeof(ImmutableHashSet<>) ? typeof(HashSetForm<>)
        : definition == typeof(ImmutableSortedSet<>) ? typeof(SortedSetForm<>)
        : definition == typeof(ImmutableDictionary<,>) ? typeof(DictionaryForm<,>)
        : definition == typeof(FrozenDictionary<,>) ? typeof(FrozenDictionaryForm<,>)
        : definition == typeof(ImmutableSortedDictionary<,>) ? typeof(SortedDictionaryForm<,>)
        : null;

    private static bool IsRaw(Type type) => type.IsValueType
        && !(bool)typeof(RuntimeHelpers).GetMethod(nameof(RuntimeHelpers.IsReferenceOrContainsReferences))!.MakeGenericMethod(type).Invoke(null, null)!;

    private static IForm New(Type definition, params Type[] arguments) => (IForm)Activator.CreateInstance(definition.MakeGenericType(arguments))!;

    /// <summary>A type's fields, those of the types it derives from first.</summary>
    internal static IReadOnlyList<FieldInfo> FieldsOf(Type type)
    {
        const BindingFlags Own = BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly;
        IEnumerable<FieldInfo> own = type.GetFields(Own).OrderBy(f => f.Name, StringComparer.Ordinal);
        return type.BaseType is { } above && above != typeof(object) && above != typeof(ValueType) ? [.. FieldsOf(above), .. own] : [.. own];
    }
}

/// <summary>How values of a type are written, whatever the type.</summary>
internal interface IForm
{
    string Shape { get; }

    /// <summary>Finds the forms of what a value holds; asked for once, when the form itself is known.</summary>
    void Complete(Forms forms);

    void WriteObject(StateWriter to, object? value);

    object? ReadObject(StateReader from);
}

/// <summary>How values of a type are written.</summary>
internal abstract class Form<T> : IForm
{
    public virtual string Shape => GetType().Name;

    public virtual void Complete(Forms forms)
    {
    }

    public abstract void Write(StateWriter to, T value);

    public abstract T Read(StateReader from);

    public void WriteObject(StateWriter to, object? value) => Write(to, (T)value!);

    public object? ReadObject(StateReader from) => Read(from);
}
