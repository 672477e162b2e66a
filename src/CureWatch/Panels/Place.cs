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

/// <summary>Which places share the bay's air.</summary>
public static class PlaceAir
{
    /// <summary>Whether a place is in the bay's air.</summary>
    /// <param name="place">The place.</param>
    /// <returns>True outside the car and for parts off it; a shut cabin and the engine bay are not.</returns>
    public static bool IsBayAir(Place place) => place is Place.Outside or Place.OffCar;
}
