namespace CureWatch.Service.People;

/// <summary>What somebody at the board may do; each may do what those before it may.</summary>
internal enum Role
{
    /// <summary>Read: a screen on a wall.</summary>
    Screen,

    /// <summary>Work on cars: tell taps, start jobs, hand over.</summary>
    Technician,

    /// <summary>Everything, people and what was learnt among it.</summary>
    Manager,
}
