using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A log that counts what it was told.</summary>
internal sealed class ToldLog<T> : ILogger<T>
{
    private readonly ConcurrentDictionary<int, int> _told = new();

    /// <summary>How often an event was told.</summary>
    public int Of(int id) => _told.GetValueOrDefault(id);

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        _told.AddOrUpdate(eventId.Id, 1, (_, before) => before + 1);
}
