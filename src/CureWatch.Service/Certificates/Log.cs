namespace CureWatch.Service.Certificates;

/// <summary>What is logged of certificates: ids 3000 to 3099.</summary>
internal static partial class Log
{
    [LoggerMessage(3000, LogLevel.Information, "{File} was renewed: good until {Until:u}")]
    public static partial void Renewed(ILogger logger, string file, DateTime until);

    [LoggerMessage(3001, LogLevel.Warning, "{File} was written anew and is not {Allowed}: the one before it stays")]
    public static partial void NotRenewed(ILogger logger, string file, string allowed);
}
