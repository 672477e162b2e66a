namespace CureWatch.Planning;

/// <summary>Work that may harm an open coat in the air it shares.</summary>
public enum HarmfulWork
{
    /// <summary>A car is washed: spray, and moisture in the air.</summary>
    Washing,

    /// <summary>Paint is corrected: dust of pads, and compound that is thrown about.</summary>
    Compounding,

    /// <summary>Something is sanded.</summary>
    Sanding,

    /// <summary>A dressing with silicone is sprayed: craters in whatever is coated after it.</summary>
    SiliconeSpray,

    /// <summary>Doors stand open: the weather outside, and its dust.</summary>
    DoorsOpen,

    /// <summary>A lamp burns.</summary>
    Lamp,

    /// <summary>A heater runs that is no part of the building.</summary>
    Heater,

    /// <summary>A car is rolled in: a door is open for a short time. It follows from the cars that are expected; nobody plans it by itself.</summary>
    CarComesIn,
}

/// <summary>What work does to a coat.</summary>
public enum Harm
{
    /// <summary>Dust sinks into what is not touch-dry.</summary>
    Dust,

    /// <summary>Silicone makes craters in what is not touch-dry, and in a layer that another has still to go over.</summary>
    Silicone,

    /// <summary>Water, drops or mist, on what has to stay dry; and moist air.</summary>
    Water,

    /// <summary>The air outside: cold, moist or dusty, while it has to stay dry.</summary>
    Weather,

    /// <summary>Solvent vapour near what is hot.</summary>
    Fire,
}

/// <summary>Which harm a work does.</summary>
public static class Harms
{
    /// <summary>The harm of a work.</summary>
    /// <param name="work">The work.</param>
    /// <returns>The harm that matters longest.</returns>
    /// <remarks>Source (choice): common practice, no source; the product's own sheet rules.</remarks>
    public static Harm Of(HarmfulWork work) => work switch
    {
        HarmfulWork.Washing => Harm.Water,
        HarmfulWork.SiliconeSpray => Harm.Silicone,
        HarmfulWork.DoorsOpen => Harm.Weather,
        HarmfulWork.Lamp or HarmfulWork.Heater => Harm.Fire,
        _ => Harm.Dust,
    };
}
