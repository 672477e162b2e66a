namespace CureWatch.Tests.Nights;

/// <summary>The truth of a hall by the minute, with a coat in it that has to stay dry over the last night.</summary>
/// <remarks>
/// Two nodes, the air with what it touches and the walls with the floor; panels between them; vapour from wet floors, from outdoors, onto walls that are
/// colder than it. The clock starts at midnight; nothing here is the program's.
/// </remarks>
internal sealed class Night
{
    public const int MinutesPerDay = 24 * 60;
    private const double Opens = 8, LocksUp = 18;

    /// <summary>Two days in which the hall finds its course, before anybody measures.</summary>
    private const int DaysToSettle = 2;

    private readonly Chance _chance;
    private readonly Hall _hall;
    private readonly Outdoors _outdoors;
    private readonly double _washHour;

    public Night(int seed)
    {
        _chance = new Chance(seed);
        Seed = seed;
        HistoryDays = new[] { 0, 1, 4, 14 }[_chance.Below(4)];
        Threat = _chance.Happens(0.3) ? Threat.None : (Threat)(1 + _chance.Below(4));
        IsHeated = _chance.Happens(0.7);
        HasPanelProbe = _chance.Happens(0.75);
        HasOutdoorProbe = _chance.Happens(0.5);
        HasWheels = _chance.Happens(0.3);
        _hall = Hall.Drawn(_chance, IsHeated);
        double meanC = IsHeated ? _chance.Between(-2, 14) : _chance.Between(8, 17);
        int last = DaysToSettle + HistoryDays;
        double frontHour = (24 * last) + _chance.Between(20, 27);
        double? front = Threat is Threat.WarmFront or Threat.ColdSnap ? frontHour : null;
        _outdoors = new Outdoors(_chance, meanC, (24 * (last + 3)) + 1, front, Threat == Threat.WarmFront ? _chance.Between(4, 10) : -_chance.Between(4, 9));
        _washHour = _chance.Between(15, 17.7);
        CoatedAt = (last * MinutesPerDay) + (int)_chance.Between(14.2 * 60, 17 * 60);
        WatchedFrom = HistoryDays == 0 ? CoatedAt - 30 : (last - HistoryDays) * MinutesPerDay;
        OpensAt = ((last + 1) * MinutesPerDay) + (int)(Opens * 60);
        Minutes = Live(((last + 2) * MinutesPerDay) + (20 * 60), last);
        WetFrom = FirstWet();
    }

    public int Seed { get; }

    public int HistoryDays { get; }

    public Threat Threat { get; }

    public bool IsHeated { get; }

    public bool HasPanelProbe { get; }

    public bool HasOutdoorProbe { get; }

    public bool HasWheels { get; }

    /// <summary>From which minute on it is measured.</summary>
    public int WatchedFrom { get; }

    /// <summary>The minute the coat is wiped on.</summary>
    public int CoatedAt { get; }

    /// <summary>The minute the shop opens after the last night.</summary>
    public int OpensAt { get; }

    /// <summary>The first minute of the night in which water lies on the coldest panel for ten minutes; null where it is a quiet night.</summary>
    public int? WetFrom { get; }

    public Truth[] Minutes { get; }

    /// <summary>The least spread of the night [K].</summary>
    public double LeastSpreadK => Minutes[CoatedAt..OpensAt].Min(m => m.SpreadK);

    /// <summary>
    /// What it was, in the words of the climate's verdict: quiet where it stayed dry, 3 K above condensing and more; wet where more than a breath of water
    /// condensed; marginal between, where nobody is wrong who warns and nobody who does not.
    /// </summary>
    public NightKind Kind => WetFrom is not null && LeastSpreadK <= -0.3 ? NightKind.Wet : LeastSpreadK >= 3 ? NightKind.Quiet : NightKind.Marginal;

    private int? FirstWet()
    {
        int wet = 0;
        for (int minute = CoatedAt; minute < OpensAt; minute++)
        {
            wet = Minutes[minute].SpreadK <= 0 ? wet + 1 : 0;
            if (wet == 10)
            {
                return minute - 9;
            }
        }

        return null;
    }

    private Truth[] Live(int minutes, int last)
    {
        var lived = new Truth[minutes];
        double airC = 16, wallC = 15, steelC = 15.5, castC = 15.5, floorKg = 0, roofShare = _chance.Between(0.05, 0.4);
        double density = Water.Density(Water.OverWaterPa(7), airC);
        for (int minute = 0; minute < minutes; minute++)
        {
            double hour = minute / 60.0, ofDay = hour % 24;
            int day = minute / MinutesPerDay;
            bool isOpen = ofDay is >= Opens and < LocksUp && day % 7 != 6;
            bool isLastNight = minute >= (last * MinutesPerDay) + (LocksUp * 60) && minute < OpensAt;
            (double outC, double outPa) = _outdoors.At(hour);

            floorKg += isOpen && ofDay is > 9 and < 16 && _chance.Happens(_hall.WashesADay / (7 * 60)) ? _hall.WashKg : 0;
            floorKg += Threat == Threat.LateWash && minute == (last * MinutesPerDay) + (int)(_washHour * 60) ? _chance.Between(6, 18) : 0;

            double setC = isOpen ? _hall.DayC : isLastNight && Threat == Threat.HeatingOff ? -50 : _hall.NightC;
            double heatW = Math.Clamp((setC - airC) * 6000, 0, _hall.HeaterW);
            double changes = _hall.ShutChanges + (isOpen && _chance.Happens(_hall.DoorsAnHour / 60) ? 0.25 * 60 : 0);

            double vapourPa = Water.Pressure(density, airC);
            double driesKg = Math.Min(floorKg, 2.5e-5 * Math.Max(0, Water.OverWaterPa(wallC) - vapourPa));
            double onWallsKg = 0.8e-5 * Math.Max(0, vapourPa - Water.SaturationPa(wallC));
            floorKg += onWallsKg - driesKg;
            density += ((driesKg - onWallsKg) / _hall.VolumeM3) + ((Water.Density(outPa, outC) - density) * changes / 60);

            double toWallsW = 1200 * (airC - wallC);
            double airJK = 3 * 1210 * _hall.VolumeM3;
            double lostW = ((0.5 * _hall.LossWK) + (changes * 1210 * _hall.VolumeM3 / 3600)) * (airC - outC);
            airC += (heatW - toWallsW - lostW - (driesKg * 2.45e6 / 60)) * 60 / airJK;
            wallC += (toWallsW - (0.5 * _hall.LossWK * (wallC - outC))) * 60 / _hall.WallsJK;

            double roofC = airC - (roofShare * (airC - (outC - (isOpen ? 0 : 2))));
            double seenC = (0.5 * airC) + (0.35 * roofC) + (0.15 * wallC);
            steelC += (seenC - steelC) / 6;
            castC += (seenC - castC) / 48;
            lived[minute] = new Truth(airC, Water.Pressure(density, airC), steelC, castC, HasWheels ? Math.Min(steelC, castC) : steelC, outC, outPa);
        }

        return lived;
    }
}

/// <summary>What a night was.</summary>
internal enum NightKind
{
    Quiet,
    Marginal,
    Wet,
}

/// <summary>A minute of it.</summary>
/// <param name="AirC">The air.</param>
/// <param name="VapourPa">Its moisture.</param>
/// <param name="SteelC">The bonnet, coated.</param>
/// <param name="CastC">The wheels.</param>
/// <param name="ColdestC">The coldest coated panel.</param>
/// <param name="OutC">The air outdoors.</param>
/// <param name="OutPa">Its moisture.</param>
internal readonly record struct Truth(double AirC, double VapourPa, double SteelC, double CastC, double ColdestC, double OutC, double OutPa)
{
    public double SpreadK => ColdestC - Water.CondensesAtC(VapourPa);

    public double HumidityPct => Math.Min(100, 100 * VapourPa / Water.OverWaterPa(AirC));
}
