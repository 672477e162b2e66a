namespace CureWatch.Benchmarks.Peers;

/// <summary>Something that takes QoS 1 readings and stores them for good.</summary>
internal interface IStore : IAsyncDisposable
{
    string Name { get; }

    /// <summary>The port to publish to, once it is started.</summary>
    int Port { get; }

    Task StartAsync();

    /// <summary>SIGKILL, of every process there is.</summary>
    Task KillAsync();

    /// <summary>How many readings are stored.</summary>
    Task<int> CountAsync();

    /// <summary>The keys of all that is stored; asked while nothing is published.</summary>
    Task<HashSet<string>> KeysAsync();
}
