using System.Collections.Immutable;
using CureWatch.Forecasting;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Looks ahead in a bay with open coats: what may happen, how likely, when, and what still helps.</summary>
internal sealed class LookAhead
{
    /// <summary>How far ahead a person is warned [h]: what is further off is known better later. The night's summary reaches to the opening. Source (choice).</summary>
    private const double WarnedHours = 8;

    /// <summary>What probes leave open of a spread [K], of a panel [K] and of a humidity [%], as standard deviations. Source (choice): usual limits over √3.</summary>
    private const double SpreadDoubtK = 0.4, PanelDoubtK = 0.4, HumidityDoubtPct = 1.5, RateDoubt = 0.02;

    /// <summary>A coat that cures faster than this now [1] does not stall within a night. Source (choice).</summary>
    private const double FarFromStalling = 0.6;

    /// <summary>What is less likely is not spoken of [1]. Source (choice).</summary>
    private const double Negligible = 0.02;

    /// <summary>What is less likely needs no remedy [1]. Source (choice).</summary>
    private const double WorthARemedy = 0.06;
    private const int MostRemedies = 3;

    /// <summary>
    /// How much longer a coat may stay wet than in the air as it is, while the bay's own days do not tell how it cools [1]. Source (choice): at half the rate, as ten
    /// kelvins colder.
    /// </summary>
    private const double LongerUnforeseen = 2;

    private readonly BayState _bay;
    private readonly AirNow _now;
    private readonly Scenarios _scenarios;
    private readonly double _within, _wetWithin;

    private LookAhead(BayState bay, AirNow now, double within, DateTimeOffset? dryBy)
    {
        (_bay, _now, _within) = (bay, now, within);
        _scenarios = Scenarios.Of(bay.Forecaster, now, within);
        _wetWithin = Math.Clamp(WetHours(_scenarios, (dryBy - now.At)?.TotalHours ?? within), 0, within);
    }

    /// <summary>Looks.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The same at its present.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>What is expected; null while no air probe is heard.</returns>
    public static BayAhead? Of(Shop shop, Present present, BayState bay)
    {
        if (AheadScene.Of(shop, present, bay) is not { } now)
        {
            return null;
        }

        double reach = ReachOf(now);
        var look = new LookAhead(bay, now, reach, DryBy(shop, present, bay));
        return new BayAhead(
            now.At,
            now.At + TimeSpan.FromHours(reach),
            look._scenarios.IsForecast,
            NightOf(look._scenarios, look._wetWithin),
            [.. look.Limits().Select(l => look.RiskOf(l.Kind, l.Doubt, l.Excess)).OfType<Risk>()]);
    }

    /// <summary>What a bay's hours to come are expected to bring a coat that is not on yet.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>
    /// What an instant to another brings, or as far as is looked where the other is null; null where that begins beyond it. Null while no air probe is heard.
    /// </returns>
    public static Func<DateTimeOffset, DateTimeOffset?, NightAhead?>? NightsOf(Shop shop, BayState bay)
    {
        if (AheadScene.Of(shop, new Present(shop, shop.Now), bay) is not { } now)
        {
            return null;
        }

        var scenarios = Scenarios.Of(bay.Forecaster, now, Scenarios.Reach);
        return (from, to) => (from - now.At).TotalHours is var begins && begins < Scenarios.Reach
            ? NightOf(scenarios, begins + WetHours(scenarios, (to - from)?.TotalHours ?? Scenarios.Reach), begins)
            : null;
    }

    /// <summary>Until when water, and air beyond the sheet, can spoil anything that is open, by the slow bound; null where nobody can tell.</summary>
    private static DateTimeOffset? DryBy(Shop shop, Present present, BayState bay)
    {
        DateTimeOffset last = shop.Now;
        foreach (string job in bay.Jobs)
        {
            foreach (WatchedCoat watched in shop.Jobs[job].Watched.Where(w => !w.IsDry && w.Point?.Bay == bay.Plan.Bay))
            {
                if (CoatReviews.DryBy(watched, present.WindowsOf(shop.Jobs[job].Job, watched.Story, watched.Coat)) is not { } dry)
                {
                    return null;
                }

                last = dry > last ? dry : last;
            }
        }

        return last;
    }

    private static double WetHours(Scenarios scenarios, double hours) => Scenarios.KnotFrom(scenarios.IsForecast ? hours : LongerUnforeseen * hours);

    private static double ReachOf(AirNow now) => Math.Clamp((now.OpensAt - now.At)?.TotalHours ?? WarnedHours, WarnedHours, Scenarios.Reach);

    private static NightAhead NightOf(Scenarios scenarios, double within, double begins = 0)
    {
        AirNow now = scenarios.Now;
        RiskAhead wet = RiskAhead.Of(scenarios, within, SpreadDoubtK, p => -p.SpreadKelvins, begins: begins);
        (double coldest, double coldestHours) = scenarios.LeastLikely(within, p => p.ColdestKelvins, begins);
        (double spread, double spreadHours) = scenarios.LeastLikely(within, p => p.SpreadKelvins, begins);
        return new NightAhead(coldest - Celsius.KelvinsAtZero, At(coldestHours), spread, At(spreadHours), wet.Chance, wet.FromHours is { } from ? At(from) : null);

        DateTimeOffset At(double hours) => Minute(now.At + TimeSpan.FromHours(hours));
    }

    private IEnumerable<(WarningKind Kind, double Doubt, Func<ScenarioPoint, double> Excess)> Limits()
    {
        yield return (WarningKind.CondensingAhead, SpreadDoubtK, p => -p.SpreadKelvins);
        if (_bay.Undried.Min(o => o.Laws.Sheet.Limits.HumidityMaxPct) is { } humidityMax)
        {
            yield return (WarningKind.HumidityHighAhead, HumidityDoubtPct, p => (p.HumidityPct * _now.WettestShare) - humidityMax);
        }

        if (_bay.Undried.Max(o => o.Laws.Sheet.Limits.HumidityMinPct) is { } humidityMin)
        {
            yield return (WarningKind.HumidityLowAhead, HumidityDoubtPct, p => humidityMin - p.HumidityPct);
        }

        if (_bay.Undried.Max(o => o.Laws.Sheet.Limits.PanelMinC) is { } panelMin)
        {
            yield return (WarningKind.PanelColdAhead, PanelDoubtK, p => panelMin + Celsius.KelvinsAtZero - p.ColdestKelvins);
        }

        if (_bay.Undried.Min(o => o.Laws.Sheet.Limits.PanelMaxC) is { } panelMax)
        {
            yield return (WarningKind.PanelHotAhead, PanelDoubtK, p => p.HottestKelvins - panelMax - Celsius.KelvinsAtZero);
        }

        RateLaw[] laws = [.. _bay.Undried.Select(o => o.Laws.Cure.Law).Distinct().Where(l => EarnedAt(l, Start) < FarFromStalling)];
        if (laws.Length > 0)
        {
            yield return (WarningKind.CureStalledAhead, RateDoubt, p => ClimateLooks.StalledBelow - LeastEarnedAt(laws, p));
        }
    }

    /// <summary>While nobody is there it is warned of what happens until they come: what comes after that, those who open see coming.</summary>
    private double SoonHours => _now is { LeftAt: not null, OpensAt: { } opens } ? Math.Min(WarnedHours, (opens - _now.At).TotalHours) : WarnedHours;

    private ScenarioPoint Start => _scenarios.All[0].Points[0];

    private static double EarnedAt(RateLaw law, ScenarioPoint point) => ClimateLooks.LeftOf(law, point.ColdestKelvins, point.VapourPressurePa);

    private static double LeastEarnedAt(RateLaw[] laws, ScenarioPoint point)
    {
        double least = double.PositiveInfinity;
        foreach (RateLaw law in laws)
        {
            least = Math.Min(least, EarnedAt(law, point));
        }

        return least;
    }

    /// <summary>Up to how far ahead something of a kind matters [h]: heat spoils also what is dry.</summary>
    private double WithinOf(WarningKind kind) => kind == WarningKind.PanelHotAhead ? _within : _wetWithin;

    private Risk? RiskOf(WarningKind kind, double doubt, Func<ScenarioPoint, double> excess)
    {
        RiskAhead risk = RiskAhead.Of(_scenarios, WithinOf(kind), doubt, excess, SoonHours);
        if (risk.Chance < Negligible || risk.FromHours is not { } from)
        {
            return null;
        }

        DateTimeOffset begins = Minute(_now.At + TimeSpan.FromHours(from));
        return new Risk(
            kind,
            risk.Chance,
            risk.SoonChance,
            begins,
            TimeSpan.FromMinutes(Math.Round((risk.LastsHours ?? 0) * 60)),
            risk.Chance < WorthARemedy ? [] : Helping(kind, risk.Chance, begins, doubt, excess));
    }

    /// <summary>Of one sort the gentlest that does nearly as much as the strongest; what does not help any more is not offered.</summary>
    private ImmutableArray<RemedyEffect> Helping(WarningKind kind, double chance, DateTimeOffset from, double doubt, Func<ScenarioPoint, double> excess)
    {
        var helping = new List<RemedyEffect>();
        foreach (IGrouping<string, Remedy> sort in BayRemedies.Against(_bay, _now, kind, from).GroupBy(r => r.Sort))
        {
            RemedyEffect[] effects =
            [
                .. sort.Select(r => new RemedyEffect(r.Text, RiskAhead.Of(_scenarios.Under(r.Climate), WithinOf(kind), doubt, excess).Chance, r.IsHeat))
                    .Where(e => e.HelpsAgainst(chance)),
            ];
            if (effects.Length > 0)
            {
                double best = effects.Min(e => e.ChanceAfter);
                helping.Add(effects.First(e => e.ChanceAfter <= Math.Max(NearlyAsGood, best + (NearlyAsGood / 2))));
            }
        }

        return [.. helping.OrderBy(e => e.ChanceAfter).Take(MostRemedies)];
    }

    /// <summary>A chance as small as this [1] is as good as any smaller one. Source (choice).</summary>
    private const double NearlyAsGood = 0.1;

    /// <summary>Nobody is told more than minutes of what is to come.</summary>
    private static DateTimeOffset Minute(DateTimeOffset at) => at - TimeSpan.FromTicks(at.UtcTicks % TimeSpan.TicksPerMinute);
}
