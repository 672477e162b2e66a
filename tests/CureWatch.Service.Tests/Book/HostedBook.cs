using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Settings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Book;

/// <summary>A folder with a book, and hosts of its own that keep it, told of the example day.</summary>
internal sealed class HostedBook : IDisposable
{
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private static readonly ShopDay Day = ShopDay.Example;

    private readonly Written _written = new();

    public Latest Latest { get; } = new();

    public FakeTimeProvider Clock { get; } = new();

    public string Folder => _written.Folder;

    public IEnumerable<string?> Doubtful => Directory.GetFiles(Folder, "book.db.doubtful-*").Select(Path.GetFileName).Order(StringComparer.Ordinal);

    public static BookKeeper Keeper(IHost host) => host.Services.GetRequiredService<BookKeeper>();

    public static async Task UntilLevelAsync(IHost host)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (await Keeper(host).AskAsync(b => b.Position.Sequence) is not BookAnswer<long>.Told { IsBehind: false } told
            || told.Value < Day.Register.Sequence)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System, patience.Token);
        }
    }

    public static async Task<string> WhyAwayAsync(IHost host)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            if (await Keeper(host).AskAsync(b => b.Position.Sequence) is BookAnswer<long>.Away away)
            {
                return away.Why;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System, patience.Token);
        }
    }

    public void Tell(IHost host, IEnumerable<Commit> commits)
    {
        foreach (Commit commit in commits)
        {
            Latest.Register = commit.After;
            Keeper(host).Follow(commit);
        }
    }

    public async Task<IHost> StartAsync(long journalLast = 0, IJournalSteps? journal = null, bool isStarted = true)
    {
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(null);
        builder.Services.AddSingleton(Latest).AddSingleton<TimeProvider>(Clock).AddSingleton(journal ?? Day).AddLogging()
            .AddBook(LocalDisk.Instance, Folder, BookOpening.Of(LocalDisk.Instance, Folder, journalLast), journalLast);
        IHost host = builder.Build();
        _ = Keeper(host);
        if (isStarted)
        {
            await host.StartAsync();
        }

        return host;
    }

    public void AssertWhole()
    {
        using var written = new Written();
        Books.Write(Books.New(written.Folder), Day.Steps);
        Assert.Equal(Books.Content(written.Folder), Books.Content(Folder));
    }

    public static Task StopAsync(IHost host) =>
        host.StopAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);

    public void Dispose() => _written.Dispose();
}
