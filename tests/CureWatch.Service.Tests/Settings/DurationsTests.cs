using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public class DurationsTests
{
    [Theory]
    [InlineData("00:00:00", 0)]
    [InlineData("00:01:30", 90)]
    [InlineData("23:59:59", 86399)]
    [InlineData("7.00:00:01", 604801)]
    [InlineData("00:00:01.5", 1.5)]
    [InlineData("1.00:00:00.25", 86400.25)]
    public void Duration_InItsForm_IsRead(string text, double seconds) => Assert.Equal(seconds, Durations.Find(text)?.TotalSeconds);

    [Theory]
    [InlineData("")]
    [InlineData("90")]
    [InlineData("1:30")]
    [InlineData("1:02:03")]
    [InlineData("24:00:00")]
    [InlineData("00:60:00")]
    [InlineData("-00:01:00")]
    [InlineData("00:01:00 ")]
    [InlineData("00:01:00\n")]
    [InlineData("00:00:01,5")]
    [InlineData("00:00:01.")]
    [InlineData("PT1M")]
    [InlineData("1:00:00:00")]
    public void Text_OfAnotherForm_IsRefused(string text) => Assert.Null(Durations.Find(text));
}
