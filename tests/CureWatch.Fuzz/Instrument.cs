using SharpFuzz;

namespace CureWatch.Fuzz;

/// <summary>Makes an assembly tell where it goes. Apart from all that would load it: a file that is loaded cannot be written.</summary>
internal static class Instrument
{
    public static int Assembly(string path)
    {
        Fuzzer.Instrument(path, _ => true, Options.Value);
        return 0;
    }
}
