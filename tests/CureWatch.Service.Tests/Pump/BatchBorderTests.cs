using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Pump;

/// <summary>Where a batch ends, and where a start falls, is nowhere to be seen; and what is live is what a replay says.</summary>
public sealed class BatchBorderTests
{
    private const int Groups = 50;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task State_IsTheSame_HoweverTheInputsCome(int seed)
    {
        (string State, string Answers) alone = await Pump(seed, atOnce: 1);
        Assert.Equal(alone, await Pump(seed, atOnce: 7));
        Assert.Equal(alone, await Pump(seed, atOnce: int.MaxValue));
        Assert.Equal(alone, await Pump(seed, atOnce: 3, startEvery: 9));
        Assert.Contains(nameof(Answer.Repeated), alone.Answers, StringComparison.Ordinal);
    }

    /// <summary>Pumps the groups on a clock that stands still within each.</summary>
    /// <param name="seed">Of the inputs.</param>
    /// <param name="atOnce">How many of a group are posted before an answer is awaited.</param>
    /// <param name="startEvery">After how many groups the pump is stopped and started; null for never.</param>
    private static async Task<(string State, string Answers)> Pump(int seed, int atOnce, int? startEvery = null)
    {
        using var pumped = new Pumped(AnyInputs.Shop);
        var answers = new List<string>();
        int groups = 0;
        foreach ((DateTimeOffset at, IReadOnlyList<Func<Arrival>> arrivals) in new AnyInputs(seed).Groups(Groups))
        {
            pumped.Clock.SetUtcNow(at);
            foreach (Func<Arrival>[] burst in arrivals.Chunk(atOnce))
            {
                answers.AddRange((await pumped.AskTogether(burst.Select(a => a()))).Select(a => a.GetType().Name));
            }

            if (++groups % startEvery == 0)
            {
                pumped.Stop();
                pumped.Start();
            }
        }

        pumped.Stop();
        Recovery recovery = pumped.Recover();
        Assert.Equal(States.Text(pumped.Register), States.Text(recovery.Register));
        Assert.Empty(recovery.Facts.Strange);
        Assert.Empty(recovery.Facts.Untold);

        // How many entries it takes to count refusals, and to start, depends on the batches; nothing that people see does.
        return (States.Text(recovery.Register with { Sequence = 0 }), string.Join(' ', answers));
    }
}
