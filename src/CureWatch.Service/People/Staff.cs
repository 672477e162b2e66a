namespace CureWatch.Service.People;

/// <summary>The staff list of the running service. Every change is on disk before anybody is told of it.</summary>
internal sealed class Staff(StaffFolder folder)
{
    private readonly Lock _changing = new();
    private volatile StaffList _list = folder.Read();

    public StaffList List => _list;

    /// <summary>Changes the list.</summary>
    /// <exception cref="IOException">It could not be written, and is as it was.</exception>
    public StaffList Change(Func<StaffList, StaffList> change)
    {
        lock (_changing)
        {
            StaffList changed = change(_list);
            folder.Write(changed);
            _list = changed;
            return changed;
        }
    }

    /// <returns>What is signed in under an id, and still may be; else null.</returns>
    public SignedIn? Find(string? id, DateTimeOffset now) => _list.SignedIn.FirstOrDefault(s => s.Id == id && s.Until > now);
}
