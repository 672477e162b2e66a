using CureWatch.Service.Documents;

namespace CureWatch.Service.Tests.Documents;

public class ChanceWordsTests
{
    [Theory]
    [InlineData(0, "less than 1 in 1,000")]
    [InlineData(0.0012, "1 in 800")]
    [InlineData(0.0253, "1 in 40")]
    [InlineData(0.12, "1 in 8")]
    [InlineData(0.5, "5 in 10")]
    [InlineData(0.94, "9 in 10")]
    [InlineData(1, "more than 19 in 20")]
    public void Chance_IsSaidAsPeopleSayIt(double chance, string words) => Assert.Equal(words, ChanceWords.Of(chance).ToString());
}
