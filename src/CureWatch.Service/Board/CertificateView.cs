namespace CureWatch.Service.Board;

/// <summary>What a person needs before their phone trusts the shop's own authority.</summary>
/// <param name="Shop">What stands on the tape.</param>
/// <param name="Fingerprint">What is compared.</param>
/// <param name="File">What is installed.</param>
/// <param name="Names">By which the board is opened.</param>
/// <param name="Until">Until when the authority vouches.</param>
/// <param name="Secure">Where the phone goes on then.</param>
/// <param name="IsSecure">Whether this page came by HTTPS already.</param>
/// <param name="Here">The address of this page.</param>
/// <param name="Picture">The same as a square code.</param>
/// <param name="IsOfThisComputer">Whether that address leads to this computer alone.</param>
public sealed record CertificateView(
    string Shop,
    string Fingerprint,
    string File,
    IReadOnlyList<string> Names,
    DateTime Until,
    string Secure,
    bool IsSecure,
    string Here,
    string Picture,
    bool IsOfThisComputer);
