using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using CureWatch.Service.Backups;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A backup that somebody with a grudge made: any entries, any manifest, and the right digest at its end.</summary>
internal sealed class Forged
{
    public Forged(string genuine)
    {
        using ZipArchive zip = ZipFile.OpenRead(genuine);
        foreach (ZipArchiveEntry entry in zip.Entries)
        {
            using Stream content = entry.Open();
            using var bytes = new MemoryStream();
            content.CopyTo(bytes);
            if (entry.FullName == ArchiveNames.Manifest)
            {
                Manifest = JsonNode.Parse(bytes.ToArray())!.AsObject();
            }
            else
            {
                Entries.Add((entry.FullName, bytes.ToArray(), entry.ExternalAttributes));
            }
        }
    }

    public JsonObject Manifest { get; } = [];

    public List<(string Name, byte[] Content, int Attributes)> Entries { get; } = [];

    /// <summary>Replaces the manifest's text; null for no manifest at all.</summary>
    public Func<string, string?> Text { get; set; } = text => text;

    /// <summary>Adds an entry that the manifest tells as if it were one of ours.</summary>
    public void Add(string name, byte[] content, int attributes = 0)
    {
        Entries.Add((name, content, attributes));
        Manifest["files"]!.AsArray().Add(new JsonObject
        {
            ["name"] = name,
            ["role"] = ArchiveNames.RoleOf(name) ?? "key",
            ["bytes"] = content.Length,
            ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(content)),
        });
    }

    /// <summary>Changes what an entry holds, and what the manifest says of it.</summary>
    public void Change(int entry, byte[] content)
    {
        (string name, _, int attributes) = Entries[entry];
        JsonNode told = Manifest["files"]!.AsArray().Single(f => (string?)f!["name"] == name)!;
        Entries.RemoveAt(entry);
        Manifest["files"]!.AsArray().Remove(told);
        Add(name, content, attributes);
    }

    public byte[] Written()
    {
        string path = Path.GetTempFileName();
        try
        {
            using (var file = new FileStream(path, FileMode.Create, FileAccess.ReadWrite))
            {
                using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
                {
                    zip.Comment = ArchiveSeal.Blank;
                    foreach ((string name, byte[] content, int attributes) in Entries)
                    {
                        Add(zip, name, content, attributes);
                    }

                    if (Text(Manifest.ToJsonString()) is { } manifest)
                    {
                        Add(zip, ArchiveNames.Manifest, Encoding.UTF8.GetBytes(manifest), 0);
                    }
                }

                ArchiveSeal.Set(file);
            }

            return File.ReadAllBytes(path);
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Gives changed bytes the right digest again.</summary>
    public static byte[] Sealed(byte[] archive)
    {
        string digest = Convert.ToHexStringLower(SHA256.HashData(archive.AsSpan(0, archive.Length - 64)));
        Encoding.ASCII.GetBytes(digest).CopyTo(archive, archive.Length - 64);
        return archive;
    }

    private static void Add(ZipArchive zip, string name, byte[] content, int attributes)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.ExternalAttributes = attributes;
        using Stream stream = entry.Open();
        stream.Write(content);
    }
}
