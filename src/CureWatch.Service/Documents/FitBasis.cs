using CureWatch.Products;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>What of a fitted stage is the sheet's, and what is assumption, in plain words.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Temperature">Where its dependence on temperature comes from.</param>
/// <param name="Humidity">Where its dependence on humidity comes from.</param>
/// <param name="Words">Each in a sentence: the time, temperature, humidity.</param>
internal sealed record FitBasis(Stage Stage, Basis Temperature, Basis Humidity, IReadOnlyList<Sentence> Words)
{
    public static FitBasis Of(StageFit stage)
    {
        Basis temperature = stage.LearnsActivationEnergy ? Basis.Sheet : Basis.Assumption;
        Basis humidity = stage.Law.ByDeficit ? Basis.Law : stage.LearnsHumidityExponent ? Basis.Sheet : Basis.Assumption;
        return new FitBasis(stage.Stage, temperature, humidity, [TimeOf(stage), OfTemperature(stage, temperature), OfHumidity(stage, humidity)]);
    }

    private static Sentence TimeOf(StageFit stage)
    {
        ReferenceClimate reference = stage.Law.Reference;
        Sentence rows = stage.Rows.Length == 1 ? (Sentence)$"its one row" : $"its {stage.Rows.Length} rows";
        return $"The time at {new Figure.Temperature(reference.Temperature.Degrees, "0.##")} and {reference.Humidity.Percent:0.##} % is the sheet's, from {rows}.";
    }

    private static Sentence OfTemperature(StageFit stage, Basis basis)
    {
        Sentence energy = $"{stage.Law.ActivationEnergyJmol / 1000:0.0} ± {stage.Covariance.StdErrorActivationEnergyKJmol:0.0} kJ/mol";
        double least = stage.Rows.Min(r => r.Row.Temperature.Degrees), most = stage.Rows.Max(r => r.Row.Temperature.Degrees);
        return basis == Basis.Sheet
            ? (Sentence)$"What warmth does is learnt from the sheet's rows, {new Figure.Temperature(least, "0.#")} to {new Figure.Temperature(most, "0.#")}."
            : $"The rows tell too little about temperature: {energy} is general experience, not this sheet's.";
    }

    private static Sentence OfHumidity(StageFit stage, Basis basis)
    {
        double least = stage.Rows.Min(r => r.Row.Humidity.Percent), most = stage.Rows.Max(r => r.Row.Humidity.Percent);
        return basis switch
        {
            Basis.Law => $"What moisture does is the law of drying into what the air can still take up; no row is asked.",
            Basis.Sheet => $"What moisture does is learnt from the sheet's rows, {least:0.#} to {most:0.#} %.",
            _ => $"The rows tell too little about humidity: exponent {stage.Law.HumidityExponent:0.00} is general experience, not this sheet's.",
        };
    }
}

/// <summary>Where a number of a fit comes from.</summary>
internal enum Basis
{
    /// <summary>The sheet's rows.</summary>
    Sheet,

    /// <summary>General experience, because the rows tell too little.</summary>
    Assumption,

    /// <summary>A law of nature.</summary>
    Law,
}
