using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Service.Phone;

/// <summary>A surface most cars have, so that a thumb can pick it.</summary>
/// <param name="Surface">Its id.</param>
/// <param name="Material">What it is usually made of; to be looked at, not to be believed.</param>
/// <param name="Place">Where it is.</param>
/// <param name="Kind">What goes on it.</param>
/// <param name="Sections">In how many sections it is usually worked.</param>
internal sealed record Part(string Surface, Material Material, Place Place, ProductKind Kind, int Sections)
{
    /// <summary>Common practice, no source; each can be changed where it is picked.</summary>
    public static IReadOnlyList<Part> Usual { get; } =
    [
        new("bonnet", Material.Steel, Place.Outside, ProductKind.Paint, 4),
        new("roof", Material.Steel, Place.Outside, ProductKind.Paint, 4),
        new("left-side", Material.Steel, Place.Outside, ProductKind.Paint, 6),
        new("right-side", Material.Steel, Place.Outside, ProductKind.Paint, 6),
        new("tail", Material.Steel, Place.Outside, ProductKind.Paint, 2),
        new("front-bumper", Material.Plastic, Place.Outside, ProductKind.Paint, 2),
        new("rear-bumper", Material.Plastic, Place.Outside, ProductKind.Paint, 2),
        new("windscreen", Material.Glass, Place.Outside, ProductKind.Glass, 1),
        new("side-glass", Material.Glass, Place.Outside, ProductKind.Glass, 4),
        new("wheels", Material.Casting, Place.OffCar, ProductKind.Wheel, 4),
        new("film", Material.Film, Place.Outside, ProductKind.Film, 1),
        new("trim", Material.Plastic, Place.Outside, ProductKind.Trim, 1),
        new("seats", Material.Leather, Place.Cabin, ProductKind.Leather, 2),
        new("carpets", Material.Fabric, Place.Cabin, ProductKind.Fabric, 2),
    ];
}
