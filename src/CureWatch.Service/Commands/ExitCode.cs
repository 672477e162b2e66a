namespace CureWatch.Service.Commands;

/// <summary>What a command's exit tells a script.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>The command did its work and the answer is no.</summary>
    public const int AnswerIsNo = 1;

    /// <summary>The input cannot be used.</summary>
    public const int Unusable = 2;
}
