namespace CureWatch.Service.Mqtt;

/// <summary>There is no connection with the broker, which whoever keeps it up tells.</summary>
internal sealed class BrokerAwayException() : IOException("There is no connection with the broker.");
