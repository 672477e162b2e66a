namespace CureWatch.Planning;

/// <summary>Why not even one section can be worked.</summary>
public enum PassObstacle
{
    /// <summary>The window closes before it opens.</summary>
    WindowNeverOpen,

    /// <summary>The window has closed before the tools are changed.</summary>
    ChangeOverTooLong,

    /// <summary>Levelling a section does not end before the window closes.</summary>
    LevellingTooLong,
}
