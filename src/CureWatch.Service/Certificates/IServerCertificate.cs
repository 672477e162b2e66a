using System.Net.Security;

namespace CureWatch.Service.Certificates;

/// <summary>What the board shows to whoever opens it by HTTPS.</summary>
internal interface IServerCertificate
{
    /// <summary>The certificate of this moment. It is asked for at every connection, from several threads.</summary>
    SslStreamCertificateContext Now();
}
