namespace CureWatch.Tests.Nights;

/// <summary>The weather outside, by the minute: days and nights, clouds, moist and dry air, fronts.</summary>
internal sealed class Outdoors
{
    private readonly double[] _airC;
    private readonly double[] _dewC;

    public Outdoors(Chance chance, double meanC, int hours, double? frontHour, double frontK)
    {
        double depression = chance.Between(1, 5), swing = chance.Between(1, 3), clearSwing = chance.Between(1, 4);
        double synoptic = 2 * chance.Normal(), dew = chance.Normal(), cloud = chance.Normal();
        (_airC, _dewC) = (new double[hours + 2], new double[hours + 2]);
        for (int hour = 0; hour < _airC.Length; hour++)
        {
            synoptic = (0.985 * synoptic) + (0.5 * chance.Normal());
            cloud = (0.96 * cloud) + (0.28 * chance.Normal());
            dew = (0.97 * dew) + (0.3 * chance.Normal());
            double clear = 1 / (1 + Math.Exp(-2 * cloud));
            double day = (swing + (clearSwing * clear)) * Math.Cos(2 * Math.PI * (hour - 15) / 24.0);
            double front = frontHour is { } from ? frontK * Math.Clamp((hour - from) / 4, 0, 1) : 0;
            _airC[hour] = meanC + synoptic + day + front;
            _dewC[hour] = Math.Min(_airC[hour] - 0.2, meanC - depression + (0.7 * synoptic) + dew + (Math.Max(front, 0) * 1.15));
        }
    }

    public (double AirC, double VapourPa) At(double hour)
    {
        int before = (int)hour;
        double share = hour - before;
        double airC = _airC[before] + (share * (_airC[before + 1] - _airC[before]));
        double dewC = _dewC[before] + (share * (_dewC[before + 1] - _dewC[before]));
        return (airC, Water.OverWaterPa(Math.Min(dewC, airC - 0.1)));
    }
}
