using CureWatch.Fuzz.Targets;

namespace CureWatch.Fuzz;

/// <summary>How this is called.</summary>
internal static class Usage
{
    public static int Say()
    {
        Console.Error.WriteLine("TARGET | again TARGET FILE… | seeds TARGET FOLDER WORDS | instrument ASSEMBLY");
        Console.Error.WriteLine($"TARGET: {string.Join(", ", FuzzTarget.All.Select(t => t.Name))}");
        return 2;
    }
}
