using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Decides what of a configuration folder is new to the journal, which owns the settings. A file counts when it differs from what was last
/// imported; a setting that was changed on the board since is never overwritten unasked.
/// </summary>
internal sealed class Imports(Register register, bool isForced, Faults faults)
{
    private readonly List<Entry> _entries = [];

    /// <returns>What to journal; of no use where there is a fault.</returns>
    public static ImmutableArray<Entry> Decide(
        Register register, ConfigurationFolder folder, Configuration configuration, bool isForced, Faults faults)
    {
        var imports = new Imports(register, isForced, faults);
        imports.Shop(folder.Shop, configuration.Shop);
        foreach (string file in folder.Products)
        {
            imports.Product(file);
        }

        return [.. imports._entries];
    }

    private void Shop(string file, ShopSettings shop)
    {
        if (register.Settings.Shop is { } known && known.Plan.Shop != shop.Plan.Shop)
        {
            faults.Add(file, "/shop", shop.Plan.Shop, $"{known.Plan.Shop}, the shop whose data the folder holds, or another data folder (--data)");
            return;
        }

        HashSet<string> bays = [.. shop.Plan.Bays.Select(b => b.Bay)];
        foreach (Bays.JobState job in register.Shop?.JobsInOrder ?? [])
        {
            foreach (string gone in job.LeftAt is null ? BaysOf(job).Where(b => !bays.Contains(b)) : [])
            {
                faults.Add(file, "/bays", $"no {gone}", $"the bay {gone} until the car of the job {job.Job.Id} has left");
            }
        }

        Item(file, new SettingsItem(SettingsItem.Shop, shop.Plan.Shop, 0));
    }

    /// <summary>The bay a job began in, and those its car was moved to and is in.</summary>
    private IEnumerable<string> BaysOf(Bays.JobState job) =>
        job.Stories.Select(s => Bays.Stay.Of(register.Shop!, job.Job, s)[^1].Bay).OfType<string>().Prepend(job.Job.Bay).Distinct();

    private void Product(string file)
    {
        if (ProductFile.Read(file, faults) is { } sheet)
        {
            Item(file, new SettingsItem(SettingsItem.Product, sheet.Product, sheet.Revision));
        }
    }

    private void Item(string file, SettingsItem item)
    {
        byte[] bytes = File.ReadAllBytes(file);
        string sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        if (register.Settings.Imported.GetValueOrDefault(item) == sha256)
        {
            return;
        }

        if (register.Settings.Documents.TryGetValue(item, out Entry.SettingsChanged? known))
        {
            if (item.Kind == SettingsItem.Product)
            {
                DemandSameContent(file, item, known, bytes);
                return;
            }

            if (known.Origin == SettingsOrigin.Board && !isForced)
            {
                faults.Add(
                    file,
                    "whole document",
                    $"sha256 {sha256[..12]}",
                    $"the file last imported, because the board has changed {item.Kind} {item.Id} since; 'config import --force' takes the file");
                return;
            }
        }

        _entries.Add(new Entry.SettingsChanged(item, sha256, Encoding.UTF8.GetString(bytes), SettingsOrigin.File));
    }

    /// <summary>A revision never changes its content; other spaces and another order of keys are the same content.</summary>
    private void DemandSameContent(string file, SettingsItem item, Entry.SettingsChanged known, byte[] bytes)
    {
        if (!JsonElement.DeepEquals(Content(known.Document), Content(Encoding.UTF8.GetString(bytes))))
        {
            faults.Add(
                file,
                "/revision",
                $"{item.Revision} with other content than was imported before",
                "the content this revision always had, or a new revision in a file of its own");
        }
    }

    private static JsonElement Content(string document) => JsonElement.Parse(document.TrimStart('\uFEFF'));
}
