using System.Collections.Concurrent;
using System.IO.Compression;
using System.Runtime.CompilerServices;
using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Board;

/// <summary>The pages that were worked out of a look at the shop: boards hang in a shop by the dozen, and ask for the same again in the same second.</summary>
internal sealed class SharedPages
{
    private readonly ConditionalWeakTable<Look, ConcurrentDictionary<Asked, Lazy<Task<Packed>>>> _pages = [];

    /// <summary>A page as whoever asked sees it; worked out once for all who ask so of that look.</summary>
    public async Task<Packed> Of(Look look, Asked asked, Func<Task<byte[]>> render)
    {
        ConcurrentDictionary<Asked, Lazy<Task<Packed>>> pages = _pages.GetOrCreateValue(look);
        Lazy<Task<Packed>> page = pages.GetOrAdd(asked, _ => new Lazy<Task<Packed>>(() => Task.Run(async () => new Packed(await render().ConfigureAwait(false)))));
        try
        {
            return await page.Value;
        }
        catch
        {
            pages.TryRemove(asked, out _); // whoever asks next is not told of what befell this one
            throw;
        }
    }

    /// <summary>All that two who ask for a page of one look may see otherwise.</summary>
    /// <param name="Page">Which page.</param>
    /// <param name="Language">In which language.</param>
    /// <param name="IsFahrenheit">In which degrees.</param>
    /// <param name="Visitor">Who is signed in; null where nobody is.</param>
    /// <param name="Role">As what.</param>
    /// <param name="BackedUp">Of when the newest backup is, which no look tells.</param>
    internal readonly record struct Asked(PathString Page, Language Language, bool IsFahrenheit, string? Visitor, Role? Role, DateTimeOffset? BackedUp);

    /// <summary>A page, and the same compressed for browsers that take it so.</summary>
    internal sealed class Packed(byte[] html)
    {
        private readonly Lazy<byte[]> _brotli = new(() =>
        {
            using var packed = new MemoryStream();
            using (var brotli = new BrotliStream(packed, CompressionLevel.Fastest))
            {
                brotli.Write(html);
            }

            return packed.ToArray();
        });

        public byte[] Html => html;

        public byte[] Brotli => _brotli.Value;
    }
}
