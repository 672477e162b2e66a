using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>What the service says once it is ready: where it can be reached.</summary>
internal sealed class ReadyLine(bool asJson, TextWriter output)
{
    /// <param name="board">Where the board is.</param>
    /// <param name="mqtt">Where readings are taken.</param>
    /// <param name="setUpCode">What the first manager is made with; null where there is one, or nobody signs in.</param>
    public void Write(Fronts board, string mqtt, string? setUpCode)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                json.WriteString("board", board.Plain);
                if (board.Secure is not null)
                {
                    json.WriteString("https", board.Secure);
                }

                if (board.Fingerprint is not null)
                {
                    json.WriteString("authority", board.Fingerprint);
                }

                json.WriteString("mqtt", mqtt);
                if (setUpCode is not null)
                {
                    json.WriteString("setUpCode", setUpCode);
                }

                json.WriteEndObject();
            });
        }
        else
        {
            output.WriteLine($"board: {board.Plain}");
            if (board.Secure is not null)
            {
                output.WriteLine($"https: {board.Secure}");
            }

            if (board.Fingerprint is not null)
            {
                output.WriteLine($"authority: SHA-256 {board.Fingerprint} (compare it on a phone before it trusts the shop, at /certificate on the board)");
            }

            output.WriteLine($"mqtt: {mqtt}");
            if (setUpCode is not null)
            {
                output.WriteLine($"set-up code: {setUpCode} (nobody can sign in yet: open /set-up on the board and become the manager)");
            }
        }

        output.Flush();
    }
}

/// <summary>Where the board is opened.</summary>
/// <param name="Plain">By plain HTTP.</param>
/// <param name="Secure">By HTTPS; null where it is not.</param>
/// <param name="Fingerprint">What a phone compares before it trusts the shop's own authority; null where none is needed.</param>
internal sealed record Fronts(string Plain, string? Secure, string? Fingerprint);
