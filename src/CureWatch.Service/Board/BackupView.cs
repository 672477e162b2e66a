namespace CureWatch.Service.Board;

/// <summary>What there is to say of the nightly backups, where there are to be any.</summary>
/// <param name="Newest">When the newest one was begun; null while there is none.</param>
public sealed record BackupView(Moment? Newest);
