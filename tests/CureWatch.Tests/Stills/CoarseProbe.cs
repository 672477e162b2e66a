using CureWatch.Tests.Nights;

namespace CureWatch.Tests.Stills;

/// <summary>How one quantity of a probe tells what it measures: late, with noise, in steps, and in some only when it has moved by a dead band.</summary>
/// <remarks>The air around it wanders off the bay's by itself, from quarter of an hour to quarter of an hour, by night less. Numbers: common practice, no source.</remarks>
internal sealed class CoarseProbe(double step, double noise, double wander, double lagSeconds, double deadband, Chance chance)
{
    private double? _felt;
    private double? _told;
    private double _apart;

    public double Tell(double truth, double seconds, bool isDay)
    {
        double kept = Math.Exp(-seconds / 900);
        _apart = (kept * _apart) + (wander * (isDay ? 1 : 0.2) * Math.Sqrt(1 - (kept * kept)) * chance.Normal());
        double here = truth + _apart;
        _felt = _felt is { } felt ? felt + ((here - felt) * (1 - Math.Exp(-seconds / lagSeconds))) : here;
        double now = Math.Round((_felt.Value + (noise * chance.Normal())) / step) * step;
        _told = _told is { } told && Math.Abs(now - told) < deadband - (step / 1000) ? told : Math.Round(now, 3);
        return _told.Value;
    }
}
