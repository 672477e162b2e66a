namespace CureWatch.Learning;

/// <summary>The stages that people see coming, so that their taps can teach when it really comes.</summary>
/// <remarks>Levelling is none of them: somebody levels when they get round to it.</remarks>
public enum TaughtStage
{
    /// <summary>The coat has flashed and may be levelled.</summary>
    Flash,

    /// <summary>The coat is dry, where the sheet has keep-dry driven by evaporation.</summary>
    KeepDry,
}
