namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Waits for what another thread or process brings about.</summary>
internal static class Eventually
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(5);

    public static async Task TrueAsync(Func<bool> holds, string what)
    {
        long since = TimeProvider.System.GetTimestamp();
        while (!holds())
        {
            Assert.True(TimeProvider.System.GetElapsedTime(since) < Patience, $"Waited in vain: {what}.");
            await Task.Delay(Step, TimeProvider.System, TestContext.Current.CancellationToken);
        }
    }

    public static Task<T> InTimeAsync<T>(this Task<T> task) => task.WaitAsync(Patience, TimeProvider.System, TestContext.Current.CancellationToken);

    public static Task InTimeAsync(this Task task) => task.WaitAsync(Patience, TimeProvider.System, TestContext.Current.CancellationToken);
}
