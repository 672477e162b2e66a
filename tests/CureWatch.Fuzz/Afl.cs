using SharpFuzz;

namespace CureWatch.Fuzz;

/// <summary>Takes inputs of afl-fuzz, for as long as it sends them; alone, one from the standard input.</summary>
internal static class Afl
{
    public static int Run(string name)
    {
        if (Named.Find(name) is not { } target)
        {
            return Usage.Say();
        }

        Fuzzer.OutOfProcess.Run(stream =>
        {
            using var input = new MemoryStream();
            stream.CopyTo(input);
            target.Take(input.ToArray());
        });
        return 0;
    }
}
