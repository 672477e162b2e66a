using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>What the service says once it is ready: where it can be reached.</summary>
internal sealed class ReadyLine(bool asJson, TextWriter output)
{
    public void Write(string board, string mqtt)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                json.WriteString("board", board);
                json.WriteString("mqtt", mqtt);
                json.WriteEndObject();
            });
        }
        else
        {
            output.WriteLine($"board: {board}");
            output.WriteLine($"mqtt: {mqtt}");
        }

        output.Flush();
    }
}
