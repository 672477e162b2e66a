namespace CureWatch.Tests.Nights;

/// <summary>An invented hall and how it is used: drawn for each night. Figures are of usual halls, common practice, no source.</summary>
/// <param name="VolumeM3">Its air.</param>
/// <param name="LossWK">What it loses through its skin [W/K].</param>
/// <param name="WallsJK">What floor and walls hold [J/K].</param>
/// <param name="ShutChanges">Air changes an hour with the doors shut.</param>
/// <param name="HeaterW">The fixed heating; 0 where there is none.</param>
/// <param name="DayC">What it is set to while the shop is open.</param>
/// <param name="NightC">What it is set to at night.</param>
/// <param name="WashesADay">Cars washed on a working day.</param>
/// <param name="WashKg">Water each leaves on the floor.</param>
/// <param name="DoorsAnHour">How often a door is opened in working hours.</param>
internal sealed record Hall(
    double VolumeM3,
    double LossWK,
    double WallsJK,
    double ShutChanges,
    double HeaterW,
    double DayC,
    double NightC,
    double WashesADay,
    double WashKg,
    double DoorsAnHour)
{
    public static Hall Drawn(Chance chance, bool isHeated) => new(
        chance.Between(300, 700),
        chance.Between(150, 600),
        chance.Between(0.6e7, 2.5e7),
        chance.Between(0.15, 0.5),
        isHeated ? chance.Between(10e3, 25e3) : 0,
        chance.Between(17, 21),
        chance.Between(10, 15),
        chance.Between(0, 4),
        chance.Between(0.7, 2.5),
        chance.Between(0.5, 3));
}

/// <summary>What is otherwise in the last evening and night.</summary>
internal enum Threat
{
    None,
    HeatingOff,
    LateWash,
    WarmFront,
    ColdSnap,
}
