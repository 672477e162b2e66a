using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;
using CureWatch.Warnings;

namespace CureWatch.Service.Documents;

/// <summary>What is shown beside any suggestion to do the dangerous thing it names.</summary>
internal static class Cautions
{
    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string SolventVapour = string.Join(
        Environment.NewLine,
        "caution: solvent vapour catches fire and gathers near the floor. While you apply: no flames, no sparks, no hot lamps, no",
        "running heaters, and air the bay. The safety data sheet and the local fire and building codes rule over anything said here.");

    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string Lamp = string.Join(
        Environment.NewLine,
        "caution: a lamp burns skin and, unseen, eyes; it sets fire to solvent and wipes, spoils film and plastics, cracks glass, and does not belong",
        "near airbags, fuel or a traction battery. Stay beside it, keep your distance, and switch it off by the panel's own measured temperature, never by",
        "the clock alone. The safety data sheet and the local fire and building codes rule over anything said here.");

    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string HeatAndShutDoors = string.Join(
        Environment.NewLine,
        "caution: no heater or lamp runs unattended, none near solvent, fuel or a traction battery; unvented burners give carbon monoxide",
        "and moisture; with the doors shut, vapour gathers. The safety data sheet and the local fire and building codes rule.");

    /// <summary>Common practice, no source; the product's own sheet rules.</summary>
    public static readonly string Airing = string.Join(
        Environment.NewLine,
        "caution: an extraction that runs while solvent is open has to be made for it. The air it draws in brings dust onto what is not touch-dry, and cold:",
        "keep the inlet away from open coats and watch the panels. The safety data sheet and the local fire and building codes rule.");

    /// <summary>What is shown beside what a warning asks to be done.</summary>
    /// <returns>The caution; null where nothing is to be heated or aired, or is hot.</returns>
    public static string? Beside(Subject about) =>
        about.Kind is WarningKind.LampOverLimit or WarningKind.LampUnread ? Lamp
        : about.Kind == WarningKind.PromiseAtRisk ? string.Join(Environment.NewLine, HeatAndShutDoors, Lamp, Airing)
        : about.Kind == WarningKind.AirspaceConflict ? SolventVapour
        : about.Kind == WarningKind.PanelHotAhead ? Airing
        : about.Kind is WarningKind.HumidityHigh or WarningKind.HumidityHighAhead or WarningKind.CondensingAhead ? string.Join(Environment.NewLine, HeatAndShutDoors, Airing)
        : about.Air is not null ? HeatAndShutDoors
        : null;

    /// <summary>What is shown beside what would get a promise back.</summary>
    public static IEnumerable<string> BesideAdvice(PromiseAdvice advice) =>
        advice.Ways.Select(w => w.Kind switch { WayKind.Lamp => Lamp, WayKind.Air => Airing, _ => HeatAndShutDoors }).Distinct();

    /// <summary>What is shown beside what helps a bay through the night.</summary>
    public static IEnumerable<string> Beside(BayAhead? ahead)
    {
        RemedyEffect[] remedies = [.. (ahead?.Risks ?? []).SelectMany(r => r.Remedies)];
        return (remedies.Any(r => r.IsHeat) ? [HeatAndShutDoors] : Enumerable.Empty<string>()).Concat(remedies.Any(r => !r.IsHeat) ? [Airing] : []);
    }

    /// <summary>What is shown beside what would follow if a bay were held otherwise, or a lamp burned.</summary>
    public static IEnumerable<string> Beside(Hypothesis hypothesis)
    {
        bool isHeld = hypothesis.AirC is not null || hypothesis.HumidityPct is not null;
        return (isHeld ? [HeatAndShutDoors] : Enumerable.Empty<string>()).Concat(hypothesis.Lamp is null ? [] : [Lamp]);
    }

    /// <summary>What is shown beside when a surface that came in cold is dry enough.</summary>
    /// <returns>The caution; null where nothing is to be heated.</returns>
    public static string? Beside(SurfaceArrival arrival) => arrival.DryAt is { Earliest: null } ? HeatAndShutDoors : null;

    /// <summary>What belongs beside an answer to "can I start?": of the products that would go on, and of heat where there is some, or it would help.</summary>
    public static IEnumerable<string> BesideStart(StartDecision decision)
    {
        StartAnswer[] left = [.. decision.Answers.Where(a => a.Evidence.Next is not null)];
        ProductSheet[] sheets = [.. left.Select(a => a.Evidence.Laws.Sheet).Distinct()];
        IEnumerable<string> solvent = sheets.Any(s => s.Carrier == Carrier.Solvent) ? [SolventVapour] : [];
        return solvent.Concat(BesideHeat(left.SelectMany(a => a.Reasons))).Concat(sheets.SelectMany(s => s.Cautions)).Distinct();
    }

    /// <summary>What belongs beside a day plan: of the vapour of whatever is coated, of heat where it is advised or planned.</summary>
    public static IEnumerable<string> Beside(DayPlan plan)
    {
        CarDay[] coated = [.. plan.Bays.SelectMany(b => b.Cars).Where(c => c.Work.BeginsAt is not null)];
        HarmfulWork[] works = [.. plan.Bays.SelectMany(b => b.Work).Select(w => w.Work).Concat(plan.Conflicts.Select(c => c.Work.Work))];
        IEnumerable<string> vapour = coated.Length > 0 || plan.Conflicts.Any(c => c.Harm == Harm.Fire) ? [SolventVapour] : [];
        IEnumerable<string> lamp = works.Contains(HarmfulWork.Lamp) ? [Lamp] : [], heat = works.Contains(HarmfulWork.Heater) ? [HeatAndShutDoors] : [];
        return vapour.Concat(lamp).Concat(heat).Concat(BesideHeat(plan.Bays.SelectMany(b => b.Cars).SelectMany(c => c.Asked.Reasons))).Distinct();
    }

    /// <summary>What belongs beside reasons that speak of heat.</summary>
    public static IEnumerable<string> BesideHeat(IEnumerable<StartReason> reasons) =>
        reasons.Select(r => r.Kind is StartReasonKind.Lamp or StartReasonKind.LampCoolDown ? Lamp : r is { IsHelpHeat: true, Help: not null } ? HeatAndShutDoors : null)
            .OfType<string>().Distinct().Order(StringComparer.Ordinal);

    /// <summary>What to take care of while a product is handled: its kind's dangers first, then what its sheet says.</summary>
    public static IEnumerable<string> Of(ProductSheet sheet) =>
        (sheet.Carrier == Carrier.Solvent ? [SolventVapour] : Enumerable.Empty<string>()).Concat(sheet.Cautions);
}
