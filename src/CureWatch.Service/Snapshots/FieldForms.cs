using System.Reflection;
using System.Runtime.CompilerServices;

namespace CureWatch.Service.Snapshots;

/// <summary>The fields of a type, one after the other.</summary>
internal sealed class Fields(Type type)
{
    private readonly IReadOnlyList<FieldInfo> _fields = Forms.FieldsOf(type);
    private IForm[] _forms = [];

    public string Shape => string.Join(',', _fields.Select(f => $"{f.Name} {f.FieldType}"));

    public void Complete(Forms forms) => _forms = [.. _fields.Select(f => forms.Of(f.FieldType))];

    public void Write(StateWriter to, object value)
    {
        for (int i = 0; i < _forms.Length; i++)
        {
            _forms[i].WriteObject(to, _fields[i].GetValue(value));
        }
    }

    public void Read(StateReader from, object value)
    {
        for (int i = 0; i < _forms.Length; i++)
        {
            _fields[i].SetValue(value, _forms[i].ReadObject(from));
        }
    }
}

/// <summary>Values that may be none.</summary>
internal sealed class NullableForm<T> : Form<T?>
    where T : struct
{
    private Form<T>? _form;

    public override void Complete(Forms forms) => _form = forms.Of<T>();

    public override void Write(StateWriter to, T? value)
    {
        to.Raw(value is not null);
        if (value is { } there)
        {
            _form!.Write(to, there);
        }
    }

    public override T? Read(StateReader from) => from.Raw<bool>() ? _form!.Read(from) : null;
}

/// <summary>Values that hold references.</summary>
internal sealed class StructForm<T> : Form<T>
    where T : struct
{
    private readonly Fields _fields = new(typeof(T));

    public override string Shape => _fields.Shape;

    public override void Complete(Forms forms) => _fields.Complete(forms);

    public override void Write(StateWriter to, T value) => _fields.Write(to, value);

    public override T Read(StateReader from)
    {
        object value = default(T);
        _fields.Read(from, value);
        return (T)value;
    }
}

/// <summary>Objects of one type.</summary>
internal sealed class RecordForm<T> : Form<T?>
    where T : class
{
    private readonly Fields _fields = new(typeof(T));

    public override string Shape => _fields.Shape;

    public override void Complete(Forms forms) => _fields.Complete(forms);

    public override void Write(StateWriter to, T? value)
    {
        to.Raw(value is not null);
        if (value is not null && !to.IsKnown(value))
        {
            _fields.Write(to, value);
        }
    }

    public override T? Read(StateReader from)
    {
        if (!from.Raw<bool>())
        {
            return null;
        }

        if (from.Known() is { } known)
        {
            return known as T ?? throw StateReader.Broken();
        }

        var value = (T)RuntimeHelpers.GetUninitializedObject(typeof(T));
        from.Remember(value);
        _fields.Read(from, value);
        return value;
    }
}

/// <summary>Objects of a closed family, each with the number of its member.</summary>
internal sealed class FamilyForm<T> : Form<T?>
    where T : class
{
    private readonly Type[] _members = [.. typeof(T).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(T)) && !t.IsAbstract).OrderBy(t => t.FullName, StringComparer.Ordinal)];
    private IForm[] _forms = [];

    public override string Shape => string.Join(',', _members.Select(m => m.Name));

    public override void Complete(Forms forms) => _forms = [.. _members.Select(forms.Of)];

    public override void Write(StateWriter to, T? value)
    {
        int member = value is null ? -1 : Array.IndexOf(_members, value.GetType());
        to.Raw(member);
        if (member >= 0)
        {
            _forms[member].WriteObject(to, value);
        }
    }

    public override T? Read(StateReader from)
    {
        int member = from.Raw<int>();
        return member == -1 ? null
            : member >= 0 && member < _forms.Length ? (T?)_forms[member].ReadObject(from)
            : throw StateReader.Broken();
    }
}
