using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Pump;

/// <summary>A journal in memory: entries in, and the commits that followers are given.</summary>
internal sealed class Folded
{
    private readonly List<Step> _steps = [];

    public Register Register { get; private set; } = Register.Blank;

    /// <summary>Everything taken in so far.</summary>
    public IReadOnlyList<Step> Steps => _steps;

    public static Entry.SettingsChanged Shop(string document) => Settings(SettingsItem.Shop, "s", 0, document);

    public static Entry.SettingsChanged Sheet(string product, int revision, string document) =>
        Settings(SettingsItem.Product, product, revision, document);

    /// <summary>Takes entries in at an instant, with the facts they bring about, as one batch.</summary>
    public Commit Take(DateTimeOffset at, params IEnumerable<Entry> entries)
    {
        int before = _steps.Count;
        foreach (Entry entry in entries)
        {
            Register old = Register;
            ImmutableArray<ShopEvent> happened = Append(entry, at);
            foreach (Entry fact in Facts.Of(old, happened).ToList())
            {
                Append(fact, at);
            }
        }

        return new Commit([.. _steps.Skip(before)], Register);
    }

    private static Entry.SettingsChanged Settings(string kind, string id, int revision, string document) =>
        new(new SettingsItem(kind, id, revision), $"hash of {kind} {id} {revision}", document, SettingsOrigin.File);

    private ImmutableArray<ShopEvent> Append(Entry entry, DateTimeOffset at)
    {
        (Register, ImmutableArray<ShopEvent> happened) = RegisterFold.Take(Register, Register.Sequence + 1, at, entry);
        _steps.Add(new Step(Register.Sequence, at, entry, happened, Register));
        return happened;
    }
}
