namespace CureWatch.Fuzz;

/// <summary>Takes inputs that were found, and says what each breaks.</summary>
internal static class Again
{
    public static int Take(string name, string[] inputs)
    {
        if (Named.Find(name) is not { } target)
        {
            return Usage.Say();
        }

        int broken = 0;
        foreach (string input in inputs)
        {
            try
            {
                target.Take(File.ReadAllBytes(input));
            }
#pragma warning disable CA1031 // whatever it is, somebody wants to see it
            catch (Exception e)
#pragma warning restore CA1031
            {
                broken++;
                Console.WriteLine($"{input}: {e}");
            }
        }

        Console.WriteLine($"{broken} of {inputs.Length} break something");
        return broken == 0 ? 0 : 1;
    }
}
