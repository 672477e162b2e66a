using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>The air around a surface and how warm it is, at the shop's present.</summary>
/// <param name="Air">The air; null where no air probe is heard.</param>
/// <param name="Panel">The panel; null where a probe that speaks for it is missing.</param>
/// <param name="Silence">What is not heard; null where all is.</param>
/// <param name="Wet">Water on the coldest panel there.</param>
internal sealed record SurfaceLook(AirLook? Air, PanelLook? Panel, Silence? Silence, Wetness Wet)
{
    /// <summary>How long a spot says how warm a panel is. Source (choice): as long as cure is credited over a stretch without a reading.</summary>
    private static readonly TimeSpan SpotCounts = Source.CureLimit;

    private static readonly Wetness Dry = new(null, null);

    public static SurfaceLook Of(Present present, BayState? bay, Stay stay, SurfaceStory story, Preparation? preparation)
    {
        if (bay is null || stay.Point is not { } point)
        {
            return new SurfaceLook(null, null, new Silence(null, null, WhereOf(bay, story)), Dry);
        }

        ImmutableArray<Spell> spells = bay.WetSpellsIn(point.Air);
        var wet = new Wetness(spells is [.., { To: null } last] ? last.From : null, spells.Max(s => s.To));
        if (BayAir.Of(present, bay, point.Air) is not { } air)
        {
            return new SurfaceLook(null, null, LastHeard(bay, AirProbesAt(bay, point), WhereOf(bay, story)), wet);
        }

        var look = new AirLook(
            Celsius.FromKelvins(air.Wettest.Kelvins).Degrees,
            air.Wettest.VapourPressurePa,
            air.HumidityMinPct,
            air.HumidityMaxPct,
            Celsius.FromKelvins(air.CondensationKelvins).Degrees);
        int[] panels = [.. point.ClosestPanelsIn(bay, present.Now)];
        Silence? silence = panels.Any(i => !IsHeard(bay, i, present.Now))
            ? LastHeard(bay, panels.Where(i => !IsHeard(bay, i, present.Now)), WhereOf(bay, story))
            : null;
        PanelLook? panel = Spotted(bay, point, preparation, air, present.Now)
            ?? (silence is not null ? null
                : panels.Length > 0 && point.IsOnIt(bay.Plan.Probes[panels[0]]) ? OnIt(bay, point, panels, air, present.Now)
                : Measured(present, bay, point, panels, air));
        return new SurfaceLook(look, panel, panel is null ? silence : null, wet);
    }

    /// <summary>The newest spot on this very panel, unless something was done to it since.</summary>
    private static PanelLook? Spotted(BayState bay, WatchPoint point, Preparation? preparation, BayAir air, DateTimeOffset now)
    {
        if (preparation is not { Spots: [.., var spot] } || now - spot.At > SpotCounts || preparation.HeatedAt > spot.At || preparation.LampOnAt is not null)
        {
            return null;
        }

        double standardK = PanelSpot.IsSuspectOn(point.Material) ? PanelSpot.SuspectStandardK : PanelSpot.StandardK;
        double spreadStandardK = DoubtOf(air, point.DoubtIn(bay, now)).OfSpreadWithPanelProbe(standardK);
        return new PanelLook(spot.PanelC, spot.PanelC, standardK, spreadStandardK, PanelBasis.Spot, spot.At);
    }

    /// <summary>By the probes fixed to this very panel.</summary>
    private static PanelLook OnIt(BayState bay, WatchPoint point, int[] panels, BayAir air, DateTimeOffset now)
    {
        double[] celsius = [.. panels.Select(i => Celsius.FromKelvins(bay.Logs[i].Panel.Last.Kelvins).Degrees)];
        double standardK = panels.Max(i => DewPointUncertainty.StandardOfLimit(bay.Plan.Probes[i].Probe.AccuracyTemperatureK));
        double spreadStandardK = DoubtOf(air, point.DoubtIn(bay, now)).OfSpreadWithPanelProbe(standardK);
        return new PanelLook(celsius.Min(), celsius.Max(), standardK, spreadStandardK, PanelBasis.ItsProbe, panels.Min(i => bay.Logs[i].Panel.Last.At));
    }

    private static PanelLook? Measured(Present present, BayState bay, WatchPoint point, int[] panels, BayAir air)
    {
        if (present.ExposureAt(point) is not { } exposure)
        {
            return null;
        }

        ClimateDoubt doubt = point.DoubtIn(bay, present.Now);
        PanelBasis basis = panels.Length == 0 ? PanelBasis.Air
            : panels.Any(i => bay.Plan.Probes[i].Material == point.Material) ? PanelBasis.OwnProbe
            : PanelBasis.OtherProbes;
        double elsewhereK2 = basis switch
        {
            PanelBasis.OwnProbe => 0,
            PanelBasis.OtherProbes => ClimateDoubt.LagK * ClimateDoubt.LagK,
            _ => doubt.AirVarianceK2,
        };
        double lagK = present.TellsPanelAt(point) ? 0 : exposure.PanelKelvins - exposure.AirKelvins;
        double panelVarianceK2 = doubt.PanelVarianceWithLagK2(lagK);
        double standardK = Math.Sqrt(panelVarianceK2 + elsewhereK2);
        DewPointUncertainty dew = DoubtOf(air, doubt);
        return new PanelLook(
            Celsius.FromKelvins(exposure.PanelKelvins).Degrees,
            Celsius.FromKelvins(present.HottestPanelKelvinsAt(point) ?? exposure.PanelKelvins).Degrees,
            standardK,
            basis == PanelBasis.Air ? dew.OfSpreadWithoutPanelProbe(Math.Max(ClimateDoubt.LagK, Math.Sqrt(panelVarianceK2))) : dew.OfSpreadWithPanelProbe(standardK),
            basis,
            panels.Length == 0 ? air.Wettest.At : panels.Min(i => bay.Logs[i].Panel.Last.At))
        {
            AtMostC = lagK < 0
                ? PanelLook.WarmedBy(Celsius.FromKelvins(exposure.AirKelvins).Degrees, Math.Sqrt(doubt.PanelVarianceWithLagK2(0) + elsewhereK2))
                : double.PositiveInfinity,
        };
    }

    private static DewPointUncertainty DoubtOf(BayAir air, ClimateDoubt doubt) => new(
        Celsius.FromKelvins(air.Wettest.Kelvins),
        new RelativeHumidity(air.Wettest.HumidityPct),
        Math.Sqrt(doubt.AirVarianceK2),
        Math.Sqrt(doubt.HumidityVariancePct2));

    private static IEnumerable<int> AirProbesAt(BayState bay, WatchPoint point) => Enumerable.Range(0, bay.Plan.Probes.Length).Where(
        i => bay.Plan.Probes[i] is { Probe.Measures: Measures.Air } mount && PlaceAir.Of(mount.Place) == point.Air);

    private static bool IsHeard(BayState bay, int index, DateTimeOffset now) =>
        !Source.IsGapForCure(now - bay.Logs[index].Panel.Last.At, bay.Plan.Probes[index].Probe.Every);

    private static Silence LastHeard(BayState bay, IEnumerable<int> probes, Sentence where)
    {
        ProbeLog log = probes.Select(i => bay.Logs[i]).MaxBy(l => l.HeardAt)!;
        return new Silence(log.Probe.Id, log.Air.Count + log.Panel.Count > 0 ? log.HeardAt : null, where);
    }

    private static Sentence WhereOf(BayState? bay, SurfaceStory story) => bay is null
        ? story.Moves.LastOrDefault()?.ToBay is Whereabouts.Store ? (Sentence)$"the store" : $"outside"
        : story.Surface.Place switch
        {
            Place.Cabin => $"the cabin in {bay.Plan.Bay}",
            Place.EngineBay => $"the engine bay in {bay.Plan.Bay}",
            _ => Sentence.Named(bay.Plan.Bay),
        };
}
