using System.Net;
using System.Net.Sockets;
using MQTTnet.Adapter;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Formatter;
using MQTTnet.Implementations;
using MQTTnet.Server;

namespace CureWatch.Service.Mqtt;

/// <summary>Listens for the embedded broker under both families of addresses on one port, and guards what comes in.</summary>
/// <param name="port">The port; 0 for any that is free under both.</param>
/// <param name="isOpen">Whether the whole network may come, or this machine only.</param>
/// <param name="mostConnections">For each more at once one is closed that has not said who it is, and where all have, the new one.</param>
/// <param name="mostBytes">Longest packet [bytes].</param>
/// <param name="refused">Told the length of one that is longer.</param>
/// <param name="log">Where it is said.</param>
internal sealed class Listener(int port, bool isOpen, int mostConnections, int mostBytes, Action<int> refused, ILogger log) : IMqttServerAdapter
{
    private const int Backlog = 100;
    private const int MostTries = 20;
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(1), BetweenWords = TimeSpan.FromMinutes(1);

    private readonly List<Socket> _sockets = [];
    private readonly CancellationTokenSource _stopping = new();
    private readonly SilentConnections _silent = new();
    private readonly Lock _saying = new();
    private int _connections;
    private long? _saidFullAt;

    /// <summary>The port it listens on, once it is started.</summary>
    public int Port { get; private set; }

    public Func<IMqttChannelAdapter, Task>? ClientHandler { get; set; }

    public Task StartAsync(MqttServerOptions options, IMqttNetLogger logger)
    {
        Open();
        foreach (Socket socket in _sockets)
        {
            _ = AcceptAsync(socket, options, logger);
        }

        return Task.CompletedTask;
    }

    public Task StopAsync()
    {
        _stopping.Cancel();
        Close();
        return Task.CompletedTask;
    }

    public void Dispose()
    {
        Close();
        _stopping.Dispose();
    }

    /// <summary>A port that is free under one family may be taken under the other.</summary>
    private void Open()
    {
        for (int tries = 1; ; tries++)
        {
            try
            {
                Port = Bind(isOpen ? IPAddress.Any : IPAddress.Loopback, port);
                if (Socket.OSSupportsIPv6)
                {
                    Bind(isOpen ? IPAddress.IPv6Any : IPAddress.IPv6Loopback, Port);
                }

                return;
            }
            catch (SocketException e) when (e.SocketErrorCode is SocketError.AddressNotAvailable or SocketError.AddressFamilyNotSupported && _sockets.Count > 0)
            {
                return; // a machine without one family is reached by the other
            }
            catch (SocketException) when (port == 0 && tries < MostTries)
            {
                Close();
            }
            catch (SocketException)
            {
                Close();
                throw;
            }
        }
    }

    private int Bind(IPAddress address, int wanted)
    {
        var socket = new Socket(address.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            socket.Bind(new IPEndPoint(address, wanted));
            socket.Listen(Backlog);
        }
        catch (SocketException)
        {
            socket.Dispose();
            throw;
        }

        _sockets.Add(socket);
        return ((IPEndPoint)socket.LocalEndPoint!).Port;
    }

    private void Close()
    {
        foreach (Socket socket in _sockets)
        {
            socket.Dispose();
        }

        _sockets.Clear();
    }

    private async Task AcceptAsync(Socket listening, MqttServerOptions options, IMqttNetLogger logger)
    {
        while (!_stopping.IsCancellationRequested)
        {
            try
            {
                Socket accepted = await listening.AcceptAsync(_stopping.Token).ConfigureAwait(false);
                _ = ServeAsync(accepted, options, logger);
            }
            catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException)
            {
                return;
            }
            catch (SocketException e)
            {
                // Such as too many open files: those that are open may soon be fewer.
                Log.BrokerTold(log, e, "a connection could not be accepted");
                await Task.Delay(Rest, TimeProvider.System).ConfigureAwait(false);
            }
        }
    }

    private async Task ServeAsync(Socket socket, MqttServerOptions options, IMqttNetLogger logger)
    {
        LinkedListNode<Socket>? place = null;
        using (socket)
        {
            try
            {
                if (HasRoom() && ClientHandler is { } handler)
                {
                    place = _silent.Enter(socket);
                    socket.NoDelay = true;
                    using var stream = new PacketGuard(new NetworkStream(socket), mostBytes, refused, () => _silent.Leave(place));
                    using var channel = new MqttTcpChannel(stream, socket.LocalEndPoint, socket.RemoteEndPoint, null);
                    var writer = new MqttBufferWriter(options.WriterBufferSize, options.WriterBufferSizeMax);
                    using var adapter = new MqttChannelAdapter(channel, new MqttPacketFormatterAdapter(writer), logger);
                    await handler(adapter).ConfigureAwait(false);
                }
            }
#pragma warning disable CA1031 // whatever one connection breaks, the others are served on
            catch (Exception e)
#pragma warning restore CA1031
            {
                Log.BrokerTold(log, e, "a connection ended");
            }
            finally
            {
                _silent.Leave(place);
                Interlocked.Decrement(ref _connections);
            }
        }
    }

    /// <summary>Counts one more in; where there are too many, one that has said nothing goes, and where all have spoken, the new one.</summary>
    private bool HasRoom()
    {
        if (Interlocked.Increment(ref _connections) <= mostConnections)
        {
            return true;
        }

        SayFull();
        return _silent.CloseOldest();
    }

    private void SayFull()
    {
        lock (_saying)
        {
            if (_saidFullAt is { } at && TimeProvider.System.GetElapsedTime(at) < BetweenWords)
            {
                return;
            }

            _saidFullAt = TimeProvider.System.GetTimestamp();
        }

        Log.Full(log, Port, mostConnections);
    }
}
