namespace CureWatch.Panels;

/// <summary>Where on, or off, the car a surface is. A shut cabin and the engine bay are not the bay.</summary>
public enum Place
{
    /// <summary>The car's outside, in the bay's air.</summary>
    Outside,

    /// <summary>Inside the cabin.</summary>
    Cabin,

    /// <summary>Under the bonnet.</summary>
    EngineBay,

    /// <summary>A part taken off the car, lying in the bay's air.</summary>
    OffCar,
}

/// <summary>Which places share their air.</summary>
public static class PlaceAir
{
    /// <summary>The place that stands for the air around a place.</summary>
    /// <param name="place">The place.</param>
    /// <returns>Outside for parts off the car, which lie in the bay's air; else the place itself.</returns>
    public static Place Of(Place place) => place == Place.OffCar ? Place.Outside : place;
}
