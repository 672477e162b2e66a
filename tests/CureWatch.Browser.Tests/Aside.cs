using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>What a phone has put aside for the time without the service, looked at and changed from the page it shows.</summary>
internal static class Aside
{
    /// <summary>How long a busy machine may take over what is a matter of seconds [ms].</summary>
    public const int Patience = 180_000;

    /// <summary>Opens what is put aside: a store of entries by their path. Where there is none yet, none is made.</summary>
    private const string StoreScript =
        """
        const inStore = work => new Promise((resolve, reject) => {
          const opening = indexedDB.open("curewatch-bay");
          opening.onupgradeneeded = () => opening.transaction.abort();
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            try {
              const transaction = opening.result.transaction("aside", "readwrite");
              const asked = work(transaction.objectStore("aside"));
              transaction.oncomplete = () => resolve(asked?.result);
              transaction.onabort = () => reject(transaction.error);
            } catch (fault) {
              reject(fault);
            } finally {
              opening.result.close(); // once that is done
            }
          };
        });
        """;

    /// <summary>Waits until the page is there with its scripts.</summary>
    public static Task WaitAsync(IPage page) => WaitAsync(
        page,
        """
        const kept = await inStore(entries => entries.getAllKeys()).catch(() => []);
        const ends = [location.pathname, "board.css", "board.js", "phone.js", "queue.js", "clock.js", "wipes.js"];
        return ends.every(end => kept.some(path => path.endsWith(end)));
        """);

    /// <summary>
    /// Waits until a script finds it so: asked again in the page, for a promise of anything counts as true to <see cref="IPage.WaitForFunctionAsync"/>.
    /// </summary>
    /// <param name="page">The page.</param>
    /// <param name="script">What it does by <c>inStore(entries =&gt; request)</c>; it returns whether that is so.</param>
    public static Task WaitAsync(IPage page, string script) => DoAsync<bool>(
        page,
        $$"""
        const isSo = async () => { {{script}} };
        const until = performance.now() + {{Patience}};
        while (!await isSo()) {
          if (performance.now() > until) {
            throw new Error("It never was so.");
          }
          await new Promise(resolve => setTimeout(resolve, 50));
        }
        return true;
        """);

    /// <summary>Runs a script.</summary>
    /// <param name="page">The page.</param>
    /// <param name="script">What it does by <c>inStore(entries =&gt; request)</c>.</param>
    /// <returns>What it returns.</returns>
    public static Task<T> DoAsync<T>(IPage page, string script) => page.EvaluateAsync<T>($"async () => {{ {StoreScript} {script} }}");
}
