using System.Reflection;

namespace CureWatch.Service.Snapshots;

/// <summary>Values without references, as they lie in memory.</summary>
internal sealed class RawForm<T> : Form<T>
{
    /// <summary>A number of an enumeration says nothing without the names.</summary>
    public override string Shape => typeof(T).IsEnum
        ? string.Join(',', Enum.GetNames(typeof(T)).Select(n => $"{n} {Enum.Parse(typeof(T), n):D}"))
        : string.Join(',', Forms.FieldsOf(typeof(T)).Select(f => $"{f.Name} {f.FieldType}"));

    /// <summary>Asks for the forms of its fields only for their shapes.</summary>
    public override void Complete(Forms forms)
    {
        foreach (FieldInfo field in Forms.FieldsOf(typeof(T)))
        {
            _ = forms.Of(field.FieldType);
        }
    }

    public override void Write(StateWriter to, T value) => to.Raw(value);

    public override T Read(StateReader from) => from.Raw<T>();
}

/// <summary>Texts, each once.</summary>
internal sealed class TextForm : Form<string?>
{
    public override void Write(StateWriter to, string? value)
    {
        to.Raw(value is not null);
        if (value is not null)
        {
            to.Text(value);
        }
    }

    public override string? Read(StateReader from) => from.Raw<bool>() ? from.Text() : null;
}

/// <summary>Time zones, by their id.</summary>
internal sealed class ZoneForm : Form<TimeZoneInfo>
{
    public override void Write(StateWriter to, TimeZoneInfo value) => to.Text(value.Id);

    public override TimeZoneInfo Read(StateReader from) =>
        TimeZoneInfo.TryFindSystemTimeZoneById(from.Text(), out TimeZoneInfo? zone) ? zone : throw StateReader.Broken();
}
