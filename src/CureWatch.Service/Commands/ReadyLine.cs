using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>What the service says once it is ready: where it can be reached.</summary>
internal sealed class ReadyLine(bool asJson, TextWriter output)
{
    /// <param name="board">Where the board is.</param>
    /// <param name="mqtt">Where readings are taken.</param>
    /// <param name="setUpCode">What the first manager is made with; null where there is one, or nobody signs in.</param>
    public void Write(string board, string mqtt, string? setUpCode)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                json.WriteString("board", board);
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
            output.WriteLine($"board: {board}");
            output.WriteLine($"mqtt: {mqtt}");
            if (setUpCode is not null)
            {
                output.WriteLine($"set-up code: {setUpCode} (nobody can sign in yet: open /set-up on the board and become the manager)");
            }
        }

        output.Flush();
    }
}
