using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Learning;

/// <summary>A season of an invented shop: 25 products in four bays, twenty coats of each, and people who tap more or less when they see it.</summary>
internal sealed class Season
{
    private const int Products = 25, CoatsOfEach = 20, BayCount = 4;

    /// <summary>How far a sheet is off in this shop, and how bays differ [ln].</summary>
    private const double ProductBias = 0.25, BayBias = 0.1;

    /// <summary>How many taps are no more than slips.</summary>
    private const double WildShare = 0.05;

    /// <summary>How far a tap is off, and as far one coat from the next of its product: together what taps scatter by.</summary>
    private readonly double _scatter;

    private readonly Random _random;
    private readonly InventedBay[] _bays;
    private readonly bool _isDrying;
    private Shop _shop;
    private double _hour;

    public Season(int seed, bool isDrying = false, double scatter = 0.163)
    {
        _scatter = scatter / Math.Sqrt(2);
        _random = new Random(seed);
        _bays = [.. Enumerable.Range(0, BayCount).Select(_ => new InventedBay(_random))];
        _isDrying = isDrying;
        ImmutableArray<BayPlan> bays =
            [.. Enumerable.Range(0, BayCount).Select(b => new BayPlan(BayId(b), 1013.25, BayId(b), [], [new ProbeMount(TestShop.Air("air-1"), null, Place.Outside)]))];
        var open = new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty);
        _shop = Shop.Opening(new ShopPlan("invented", open, TimeSpan.Zero, bays), Enumerable.Range(0, Products).Select(Sheet), TestShop.Start);
    }

    /// <summary>Lives through the season.</summary>
    /// <returns>Each coat with what the engine said of it when it was wiped, and what was true.</returns>
    public List<SeasonCoat> Run()
    {
        var coats = new List<SeasonCoat>();
        double[] bias = [.. Enumerable.Range(0, Products).Select(_ => ProductBias * InventedBay.Normal(_random))];
        double[] energy = [.. Enumerable.Range(0, Products).Select(_ => 43_000 + (3_000 * InventedBay.Normal(_random)))];
        double[,] own = new double[Products, BayCount];
        for (int i = 0; i < own.Length; i++)
        {
            own[i / BayCount, i % BayCount] = BayBias * InventedBay.Normal(_random);
        }

        for (int coat = 0; coat < Products * CoatsOfEach; coat++)
        {
            int product = coat % Products, bay = product % BayCount;
            double truth = bias[product] + own[product, bay];
            coats.Add(Coat($"car-{coat}", product, bay, truth, energy[product]));
        }

        return coats;
    }

    /// <summary>What the engine has learnt of a product in its bay.</summary>
    public LearntEffect Learnt(int product)
    {
        ProductLearning learning = _shop.Learning[(ProductId(product), 1)];
        return (_isDrying ? learning.KeepDry : learning.Flash).In(BayId(product % BayCount), _shop.Now)!;
    }

    private SeasonCoat Coat(string job, int product, int bay, double truth, double energyJmol)
    {
        _hour = Math.Ceiling((_hour + 1) * 60) / 60;
        double wiped = _hour + 0.1;
        double through = _bays[bay].Through(wiped, ReferenceHours(product) * Math.Exp(truth + (_scatter * InventedBay.Normal(_random))), energyJmol, 0.2);
        bool isWild = _random.NextDouble() < WildShare;
        double off = isWild ? (4 * _random.NextDouble()) - 2 : _scatter * InventedBay.Normal(_random);
        double told = wiped + Math.Min(10 * ReferenceHours(product), (through - wiped) * Math.Exp(off));
        var surface = new Surface("bonnet", Material.Steel, null, Place.Outside, ProductId(product), 1, 1, 1);
        Take(new Message.JobStarted(new Job(job, BayId(bay), null, null, [surface]), TestShop.At(_hour)));
        Watch(bay, wiped);
        Tap(job, wiped, Did.Applied);
        Watch(bay, told);
        Tap(job, told, _isDrying ? Did.Dried : Did.Flashed);
        Watch(bay, Math.Max(told, through) + 0.05);
        CoatReport report = JobReport.Of(_shop, job).Surfaces[0].Coats[0];
        DateTimeOffset? latest = _isDrying ? report.Windows.Single(w => w.Stage == WindowStage.KeepDry).ClosesAt?.Latest : null;
        Watch(bay, Math.Max(told, through) + 0.35);
        Take(new Message.CarLeft(job, TestShop.At(_hour)));
        return new SeasonCoat(product, truth, TestShop.At(through), _isDrying ? report.BegunWith.KeepDry : report.BegunWith.Flash, latest);
    }

    private void Watch(int bay, double until)
    {
        while (_hour < until)
        {
            (double c, double pct) = _bays[bay].Reading(_hour);
            Take(new Message.ReadingCame(new RawReading(BayId(bay), "air-1", TestShop.At(_hour), TestShop.At(_hour), c, pct, null)));
            _hour += 1 / 60.0;
        }
    }

    private void Tap(string job, double hour, Did did) =>
        Take(new Message.Tapped(job, new Tap($"{did}", TestShop.At(hour), TestShop.At(hour), null, did)));

    private void Take(Message message) => _shop = ShopFold.Take(_shop, message).Shop;

    private ProductSheet Sheet(int product) => TestShop.Paint() with
    {
        Product = ProductId(product),
        Stages = _isDrying
            ? [TestShop.Row(Stage.KeepDry, Mechanism.Evaporation, ReferenceHours(product))]
            : [TestShop.Row(Stage.Flash, Mechanism.Evaporation, ReferenceHours(product), 2 * ReferenceHours(product))],
    };

    private double ReferenceHours(int product) => _isDrying ? 0.5 + (product % 5 * 0.1) : (1 + (product % 5)) / 60.0;

    private static string BayId(int bay) => $"bay-{bay + 1}";

    private static string ProductId(int product) => $"paint-{product}";
}

/// <summary>A coat of the season.</summary>
/// <param name="Product">Its product.</param>
/// <param name="Truth">How far that is off its sheet in that bay [ln].</param>
/// <param name="Through">When the coat was really through.</param>
/// <param name="BegunWith">What the engine had learnt by then; null where nothing.</param>
/// <param name="Latest">The end of keep-dry that the engine would release by; null for a flash.</param>
internal sealed record SeasonCoat(int Product, double Truth, DateTimeOffset Through, LearntEffect? BegunWith, DateTimeOffset? Latest);
