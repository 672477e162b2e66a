using CureWatch.Planning;

namespace CureWatch.Service.Settings;

/// <summary>How a shop gets panels ready and how fast its people work, as people write it: what is left out is as usual.</summary>
internal static class WorkOfShop
{
    /// <summary>A working day. Source (choice).</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    private static readonly NumberRange CarC = NumberRange.From(Bays.Visit.ColdestC, Bays.Visit.HottestC, "°C");

    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(1);

    public static WorkHabits Read(JsonCursor work)
    {
        WorkHabits usual = WorkHabits.Usual;
        if (!work.Keys([], "panelWipeValid", "wipeDries", "dripsFor", "coldestArrivalC", "apply", "level", "changeOver", "people"))
        {
            return usual;
        }

        TimeSpan valid = work["panelWipeValid"].Duration(Shortest, Longest) ?? usual.PanelWipeValid;
        TimeSpan dries = work["wipeDries"].Duration(TimeSpan.Zero, Longest) ?? usual.WipeDries;
        if (dries >= valid)
        {
            work["wipeDries"].Refuse($"{dries:c}", $"shorter than panelWipeValid, {valid:c}: no wipe-down would ever count");
        }

        return new WorkHabits(
            valid,
            dries,
            work["dripsFor"].Duration(TimeSpan.Zero, Longest) ?? usual.DripsFor,
            new SectionPace(
                work["apply"].Duration(Shortest, Longest) ?? usual.Pace.Apply,
                work["level"].Duration(Shortest, Longest) ?? usual.Pace.Level,
                work["changeOver"].Duration(TimeSpan.Zero, Longest) ?? usual.Pace.ChangeOver,
                work["people"].Integer(1, SectionPace.MostPeople) ?? usual.Pace.People))
        {
            ColdestArrivalC = work["coldestArrivalC"].Number(CarC) ?? usual.ColdestArrivalC,
        };
    }
}
