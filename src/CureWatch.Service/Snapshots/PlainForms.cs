namespace CureWatch.Service.Snapshots;

/// <summary>Values without references, as they lie in memory.</summary>
internal sealed class RawForm<T> : Form<T>
{
    public override string Shape => string.Join(',', Forms.FieldsOf(typeof(T)).Select(f => $"{f.Name} {f.FieldType}"));

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
